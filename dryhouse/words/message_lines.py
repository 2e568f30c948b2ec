"""What each kind of message says.

The slots are the names of its terms; `{wanted:noun}` and `{wanted:example}` say what kind of quantity is meant,
`{because}` is the message it comes from, `{unchanged}` that nothing was changed.
"""

from __future__ import annotations

from collections.abc import Mapping

from dryhouse.science.messages import MessageKind as Kind

NOTHING_CHANGED = "Nothing was changed."

LINES: Mapping[Kind, str] = {
    # what was typed
    Kind.EMPTY: "There is no {what} here yet.",
    Kind.OTHER_DIGITS: "“{typed}” has digits that are not read here; write it with the digits 0 to 9.",
    Kind.FRACTION_RUNS_ON: (
        "“{typed}” goes on after {fraction}; write the whole number before it, as in 1{fraction}."
    ),
    Kind.TWO_WAYS: "“{typed}” can be read two ways; write 1500 or 1,5.",
    Kind.DECIMAL_COMMA: "“{typed}” has a comma for a decimal mark; here it is a point, as in 1.5.",
    Kind.DIVIDES_BY_ZERO: "“{typed}” divides by nothing; write a fraction such as 1/2.",
    Kind.BELOW_ZERO: "“{typed}” is less than nothing; write it without the minus, such as {wanted:example}.",
    Kind.TOO_LARGE: "“{typed}” is larger than anything this can be; write it like {wanted:example}.",
    Kind.ZERO: "“{typed}” is nothing at all; leave it empty, or write it like {wanted:example}.",
    Kind.NO_NUMBER: "“{typed}” is not a {what}; write digits, such as 4 or 2.5.",
    Kind.NO_PERCENTAGE: "A {what} lies between 0 and 100 %; “{typed}” does not.",
    Kind.UNITS_OUT_OF_ORDER: "“{typed}” names its units out of order or twice; write it like {wanted:example}.",
    Kind.NO_QUANTITY: "“{typed}” is not {wanted:noun}; write it like {wanted:example}.",
    Kind.CLOCK_MINUTES: "“{typed}” needs two digits from 00 to 59 after the colon; write it like {wanted:example}.",
    Kind.NO_UNIT: "“{typed}” has no unit; write it like {wanted:example}.",
    Kind.UNKNOWN_UNIT: "“{typed}” is not a unit known here; write it like {wanted:example}.",
    Kind.WEIGHT_FOR_VOLUME: "“{typed}” is a weight; for a volume write fl oz, or {wanted:example}.",
    Kind.OTHER_QUANTITY: "“{typed}” is {was:noun}; this entry takes {wanted:noun}, such as {wanted:example}.",
    Kind.NO_SCALE: "“{typed}” does not say which degrees; write it like {wanted:example}.",
    Kind.UNKNOWN_SCALE: "“{typed}” is not a scale of temperature known here; write it like {wanted:example}.",
    Kind.TOO_COLD: "“{typed}” is colder than anything can be; write it like {wanted:example}.",
    Kind.TOO_HOT: "“{typed}” is hotter than any kitchen gets; write it like {wanted:example}.",
    # moisture
    Kind.WET_BASIS_RANGE: "Moisture wet basis lies between 0 and below 100 %.",
    Kind.DRY_BASIS_RANGE: "Moisture dry basis cannot be negative.",
    Kind.TARGET_RANGE: "A target moisture lies between 0 and below 100 % wet basis.",
    Kind.NO_MASS: "A mass must be more than nothing.",
    Kind.EMPTY_LOAD: "A load needs at least one ingredient with a mass.",
    # air, sorption and boiling
    Kind.HUMIDITY_RANGE: "Relative humidity lies between 0 and 100 %.",
    Kind.KITCHEN_RANGE: "A kitchen is between {low} and {high}.",
    Kind.DRYER_RANGE: "The dryer is warmer than the kitchen, and at most {high}.",
    Kind.GAB_CONSTANTS: (
        "GAB needs m0 between 0 and 1 g/g and C above 0 and finite; these constants say nothing of a food."
    ),
    Kind.GAB_SLOPE: (
        "GAB with K = {k} is not physical (K lies between {low} and {high}): "
        "it would hold endless water below saturation."
    ),
    Kind.ABOVE_THE_TABLES: "No boiling point is published above {top}; enter a lower altitude.",
    # the forecast
    Kind.NO_START_MOISTURE: "A forecast needs the starting moisture.",
    Kind.NO_WEIGHINGS: "A forecast needs at least one weighing with its time.",
    Kind.WEIGHING_RANGE: "Every weighing is a mass above zero at a known time.",
    Kind.WEIGHINGS_OUT_OF_ORDER: "The weighings stand in order of time, one for each moment.",
    Kind.FORECAST_TARGET_RANGE: "The target moisture lies between 0 and 100 %, wet basis.",
    Kind.DRY_MATTER_RANGE: "The dry matter is less than the first weighing and more than nothing.",
    Kind.DRY_FROM_THE_START: "The load is already as dry as the target at its first weighing.",
    Kind.HEAVIER_AT_THE_END: "The load weighs more at the end than at the beginning; check the tare and the tray.",
    Kind.HARDLY_MOVED: (
        "The weight has hardly moved over {n:bare} weighings: is the dryer on, and is the same tray weighed?"
    ),
    # the journal's file
    Kind.NOTHING_TO_CHECK: "There is no journal at “{path}” yet, so there is nothing to check.",
    Kind.NOTHING_TO_BACK_UP: "There is no journal at “{path}” yet, so there is nothing to back up.",
    Kind.NOTHING_TO_WRITE_TO: "There is no journal at “{path}” yet; open it to write. {unchanged}",
    Kind.NO_BACKUP: "There is no file “{backup}” to restore. {unchanged}",
    Kind.BACKUP_IS_JOURNAL: "“{backup}” is the journal itself; name a backup of it. {unchanged}",
    Kind.BACKUP_NOT_WHOLE: "“{backup}” is not whole ({because}) {unchanged}",
    Kind.RESTORED_NOT_WHOLE: (
        "“{backup}” was put in the place of “{path}”, but what is there now is not whole; the disk may be "
        "failing. Restore it to another place."
    ),
    Kind.IS_A_FOLDER: "“{path}” is a folder; name a journal file, such as “{inside}”.",
    Kind.READ_ONLY: ("“{path}” is read-only: change the permissions, or open a copy of it elsewhere. {unchanged}"),
    Kind.FOLDER_READ_ONLY: (
        "“{path}” lies in “{folder}”, which is read-only: change the permissions, or open a copy of it elsewhere. "
        "{unchanged}"
    ),
    Kind.NEWER_VERSION: (
        "“{path}” was written by a newer version of this program (revision {found}; this one knows {known}). "
        "Open it with that version, or update this one. {unchanged}"
    ),
    Kind.ON_A_NETWORK_DRIVE: (
        "“{path}” lies on a network drive ({drive}), where two computers could write over each other: keep the "
        "journal on a disk of this computer, and copy its backups there. It can be read where it is. {unchanged}"
    ),
    Kind.REPLACED: ("“{path}” was moved, deleted or replaced while it was open here; open it again. {unchanged}"),
    Kind.CLOSED: "“{path}” is closed.",
    Kind.OVERTAKEN: "That entry has been changed or removed meanwhile, here or in another window. {unchanged}",
    Kind.FOREIGN: "“{path}” is not a Dryhouse journal, or its beginning is damaged; it was left as it is.",
    Kind.DAMAGED: "“{path}” is damaged and was left as it is; restore a copy from the folder “{backups}”.",
    Kind.DISK_FULL: "The disk that holds “{path}” is full; make room and try again. {unchanged}",
    Kind.ONLY_READ: ("“{path}” can only be read; change its permissions or copy it elsewhere. {unchanged}"),
    Kind.BUSY: ("Another program is using “{path}” just now; try again when it has finished. {unchanged}"),
    Kind.STILL_BELONGS: (
        "Other records still belong to what would go, or what they belong to is not there. {unchanged}"
    ),
    Kind.SAME_NAME: "The journal already has one of that name. {unchanged}",
    Kind.SAME_NUMBER: "The journal already has an entry of that number. {unchanged}",
    Kind.NO_WAY_IN: ("“{path}” cannot be opened: the folder or the file does not let this program in. {unchanged}"),
    Kind.DISK_FAILED: "The disk that holds “{path}” failed or is full ({name}). {unchanged}",
    Kind.COULD_NOT_BE_USED: "“{path}” could not be used ({error}). {unchanged}",
    # what is wrong in a journal
    Kind.FILE_DAMAGED: "The file is damaged: {found}.",
    Kind.PART_MISSING: "The {what} {name} is missing from the file.",
    Kind.STRANGE_PART: "“{name}” in the file was not put there by this program.",
    Kind.BELONGS_TO_NOTHING: "{table} {number} belongs to a {target} that is not there.",
    Kind.UNREADABLE_RECORD: "{what} {number} holds something that cannot be read.",
    Kind.UNSOUND_RECORD: "{what} {number}: {because}",
    Kind.OVERDRAWN: "Lot {number} ({food}) has given more than it weighed.",
}
