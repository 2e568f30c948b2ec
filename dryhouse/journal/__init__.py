"""The journal: everything the person recorded, in one file.

store                   the journal itself, over one database
database                SQLAlchemy's engine over the file, and its transactions
mapping                 rows and the frozen records they stand for; how a moment, a day or a number is kept
tables                  the tables, worked out of the records
reading, writing        records asked for; the changes of an act
few_records             her own foods, dryers, places and the like, read once
batches, searching      lists of batches, quick with a hundred thousand of them
sqlite                  everything that only SQLite does: the file, its locks and copies, the index of words
missing_journal         what stands for a journal that is not there
opening                 any number of windows and commands, one act at a time; revision, network_drives and problems
                        help it
parts, looked_up        what a file is made of, compared before anything in it is run
backup, backup_list     copies to go back to, thinned as they grow older (thinning), and as they are offered
check, record_check     whether the file, its parts, every record and the backups are whole; mending puts right what
                        can be
sample                  the sample journal
"""
