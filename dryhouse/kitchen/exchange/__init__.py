"""The whole journal out to files and in again: JSON, or a folder of CSV tables.

formats     one record as text and back
files       a journal's records to and from a JSON file or a folder
bringing    records from elsewhere joined to a journal: renumbered, nothing twice
"""

from dryhouse.kitchen.exchange.bringing import bring_in
from dryhouse.kitchen.exchange.files import every_record, read_records, write_records

__all__ = ["bring_in", "every_record", "read_records", "write_records"]
