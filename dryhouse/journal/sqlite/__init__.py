"""Everything that only SQLite does, so that the rest of the journal could be kept in another database.

file        one file opened with the settings it wants; transactions; copies; whether the file is whole
direct_sql  what is asked before anything can be used, in SQL of our own
queries     what SQLite's own words answer best: the index of words, numbers by the ten thousand, numbers used
faults      which of the things that can happen to a file an error of SQLite's is
"""
