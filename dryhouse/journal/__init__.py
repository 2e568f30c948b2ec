"""The journal: everything the person recorded, in one SQLite file.

store               the journal itself, over one database
database            one SQLite connection; asking it takes no SQLAlchemy, a transaction does
mapping, tables     rows and the frozen records they stand for; the tables they are kept in
reading, writing    records asked for in plain SQL; the changes of an act, written with SQLAlchemy
batches             lists of batches, quick with a hundred thousand of them
nothing             what stands for a journal that is not there
opening             one writer at a time, any number of readers; connecting, revision, problems help it
backup, check       copies to go back to; whether the file is whole
sample              the sample journal
"""
