"""The whole journal out to files and in again: JSON, or a folder of CSV tables.

formats, cells   one record as JSON values, or as a line of a table, and back
files            a journal's records to a JSON file or a folder, whole or not at all
json_stream      a JSON file value by value; reading: the records of a file or folder, one at a time
numbers          what the records of a file are called here
matching         which of her records one from elsewhere is
bringing         records from elsewhere joined to a journal: judged, nothing twice, what differs chosen
"""

from dryhouse.kitchen.exchange.bringing import bring_in, look_through, take_in
from dryhouse.kitchen.exchange.files import every_record, write_records
from dryhouse.kitchen.exchange.reading import entries, read_records

__all__ = ["bring_in", "entries", "every_record", "look_through", "read_records", "take_in", "write_records"]
