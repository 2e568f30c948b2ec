"""Everything that only SQLite does, so that the rest of the journal could be kept in another database.

file        one file opened with the settings it wants; transactions; copies; whether the file is whole
direct_sql  what is asked before anything can be used, in SQL of our own
queries     what SQLite's own words answer best: the index of words, numbers by the ten thousand, numbers used
word_index  the index of words in batches: what makes it, whether it is true
mends       single rows and parts taken in hand, whatever is in them
faults      which of the things that can happen to a file an error of SQLite's is
"""
