"""The journal: everything the person recorded, in one SQLite file.

tables, mapping     rows, and the frozen records they stand for
store, batches      asking and writing; lists of batches, quick with a hundred thousand of them
opening             one writer at a time, any number of readers; connecting, revision, problems help it
backup, check       copies to go back to; whether the file is whole
sample              the sample journal
"""
