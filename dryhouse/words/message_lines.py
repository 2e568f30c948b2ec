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
    Kind.THOUSANDS_APART: "“{typed}” has a gap in its number; write it without, such as 1500.",
    Kind.A_RANGE: "“{typed}” is a range; write one number, such as its middle.",
    Kind.DECIMAL_COMMA: "“{typed}” has a comma for a decimal mark; here it is a point, as in 1.5.",
    Kind.DIVIDES_BY_ZERO: "“{typed}” divides by zero; write a fraction such as 1/2.",
    Kind.BELOW_ZERO: "“{typed}” cannot be negative; write it without the minus, such as {wanted:example}.",
    Kind.TOO_LARGE: "“{typed}” is larger than anything this can be; write it like {wanted:example}.",
    Kind.ZERO: "“{typed}” is zero; leave it empty, or write it like {wanted:example}.",
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
    Kind.NO_MASS: "Enter a weight above 0.",
    Kind.EMPTY_LOAD: "A load needs at least one ingredient with a weight.",
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
    # the air in the dryer
    Kind.NEVER_DRY_HERE: (
        "It may never get dry: the air in the dryer is at {air:2} relative humidity, and in it this food settles "
        "near {settles:2} moisture, above the target. Warmer or drier air would help."
    ),
    Kind.SLOW_AT_THE_END: (
        "The last of it will be slow: the air in the dryer is at {air:2} relative humidity, and this food settles "
        "not far below the target."
    ),
    Kind.DAMP_DAY: (
        "A damp day: the air in the dryer is at {air:2} relative humidity, so it dries more slowly than in "
        "drier air."
    ),
    # curves through weighings
    Kind.BEST_OF_MODELS: "{model} has the smallest AICc of the {models} models that {n} weighings allow.",
    Kind.BEST_OF_FEW_MODELS: (
        "{model} has the smallest AICc of the {models} models that {n} weighings allow; {left_out} with more "
        "parameters were left out."
    ),
    Kind.ONLY_LEWIS: "{n} weighings allow no more than the simplest curve, Lewis; five would allow Page.",
    Kind.NOTHING_TO_FIT: "No weighings: a curve needs at least {fewest}, and 5 to choose between models.",
    Kind.TOO_FEW_TO_FIT: (
        "{n:weighing|weighings} so far: a curve needs at least {fewest}, and 5 to choose between models."
    ),
    Kind.LOAD_GREW: ("The load weighs more at the end than at the beginning: no drying curve goes through that."),
    Kind.FLAT_SO_FAR: "The weight has hardly moved yet: there is no curve to draw.",
    Kind.WEIGHT_RISES: (
        "The weight rises {times:time|times}, most between {since} and {until} (MR by {rise:2}): a scale reading, "
        "a swapped tray or food added?"
    ),
    Kind.BELOW_DRY_MATTER: (
        "Some weighings lie below the dry matter: the starting moisture or the tare is not right."
    ),
    Kind.NOT_PINNED_DOWN: "{model}: the weighings do not pin down every parameter.",
    Kind.NOT_SETTLED: "{model}: the search did not settle; do not trust its parameters.",
    Kind.LEVELS_BELOW_ZERO: (
        "{model}: its curve levels off at MR {level:2}, below zero water; it holds only between the weighings."
    ),
    Kind.FALLS_BELOW_ZERO: (
        "{model}: past the last weighing its curve falls below zero water; never read it there."
    ),
    Kind.RISES_AGAIN: "{model}: past the last weighing its curve rises again; never read it there.",
    Kind.TOO_FEW_FOR_PERIODS: "Fewer than {fewest} weighings do not tell a constant from a falling rate.",
    Kind.TOO_EARLY_FOR_PERIODS: (
        "The load has hardly begun to dry: constant and falling rate cannot be told apart."
    ),
    Kind.NO_CONSTANT_RATE: "The rate falls from the beginning: no constant-rate period shows.",
    Kind.CONSTANT_SO_FAR: "The rate has been constant so far; it has not begun to fall.",
    Kind.TWO_PERIODS: (
        "Constant rate for the first {until:2} ({rate:2} of the free water an hour), then falling from "
        "{critical:2} of the free water on."
    ),
    # yields side by side
    Kind.NO_DIFFERENCE: "no difference shown",
    Kind.MORE_THAN_REST: "{by:2} more than the rest",
    Kind.LESS_THAN_REST: "{by:2} less than the rest",
    # keeping
    Kind.PLACE_TEMPERATURE_MISSING: "the temperature of {place} is not recorded",
    Kind.NO_PLACE: "no place is recorded",
    Kind.NO_KEEPING_TIME: "no keeping time is published for this food",
    Kind.NO_KEEPING_TIME_AT: "no keeping time is published for it at {warmth:both}: refrigerate or freeze it",
    # what a figure rests on
    Kind.ROOM_LIMIT_IN_HEAT: ("nothing is published for the heat: the limit for a room, or less, is used"),
    Kind.HANDBOOK_SPREAD: "the handbook's spread is worth {worth} batches",
    Kind.OTHER_FORM: "a batch of another form counts {each}",
    Kind.USUAL_SETTLING: "food settles at {level} ({low} to {high}) of its dry matter",
    Kind.SPEED_UNKNOWN: "speed unknown beforehand: half-time 20 min to 10 h",
    Kind.STYLE_LIQUID: "{style}: {rule}",
    Kind.OWN_RATIOS: "dried ÷ prepared",
    Kind.OWN_MEASURES: "measured volumes, {state}",
    Kind.COOKING_NOTES: "cooking notes on {what}",
    # the forecast
    Kind.NO_WEIGHINGS: "A forecast needs at least one weighing with its time.",
    Kind.WEIGHING_RANGE: "Every weighing needs a weight above 0 and a time.",
    Kind.WEIGHINGS_OUT_OF_ORDER: "The weighings must be in order of time, each at its own moment.",
    Kind.FORECAST_TARGET_RANGE: "The target moisture lies between 0 and 100 %, wet basis.",
    Kind.DRY_MATTER_RANGE: "The dry matter must be above 0 and less than the first weighing.",
    Kind.DRY_FROM_THE_START: "The load is already as dry as the target at its first weighing.",
    Kind.HEAVIER_AT_THE_END: "The load weighs more at the end than at the beginning; check the tare and the tray.",
    Kind.HARDLY_MOVED: (
        "The weight has hardly moved over {n:bare} weighings: is the dryer on, and is the same tray weighed?"
    ),
    Kind.TOO_CLOSE: "The {n:bare} weighings lie within a minute of each other: weigh again in half an hour.",
    # why a caution is said
    Kind.THIS_FOOD: "this food",
    Kind.EVERY_FOOD: "said of every food",
    Kind.IS_OR_HOLDS: "{food} counts as {which:kinds}",
    Kind.CONTENTS_UNKNOWN: "what {food} is made of is not recorded",
    Kind.MOULD_SEEN: "mold was seen",
    Kind.ODD_SMELL: "an odd smell was noted",
    Kind.NOT_CHECKED: "no check is recorded",
    Kind.PLACE_AT: "its place is at {at:both}",
    Kind.PLACE_UNKNOWN: "the temperature of its place is not known",
    Kind.OPENED: "opened",
    Kind.NOT_SEALED: "not sealed",
    Kind.TREATED_FOR_INSECTS: "a treatment against insects is recorded",
    Kind.NOT_HEATED: "no temperature reached before drying is recorded",
    Kind.HEATED_BELOW: "the recorded temperature is {reached:exactly}, below {asked:exactly}",
    Kind.NO_THERMOMETER: "the recorded temperature was not read off a thermometer",
    Kind.HOTTER_THAN_BOILING: "the recorded temperature is {reached:exactly}, hotter than boiling water",
    Kind.HEATED_HOW: "recorded as heated: {how}",
    Kind.HEATED_HOW_UNKNOWN: "how the food was heated is not recorded",
    Kind.HELD_UNKNOWN: "how long it was held at that temperature is not recorded",
    Kind.HELD_SHORT: "held for {minutes:own}",
    Kind.OVEN_AFTERWARDS: "after drying, {heat:exactly} in an oven is recorded",
    Kind.OVEN_AFTERWARDS_FOR: "after drying, {heat:exactly} for {minutes:own} in an oven is recorded",
    Kind.MADE_FROM: "recorded as made from {what}",
    Kind.MADE_FROM_UNKNOWN: "what it was made from is not recorded",
    Kind.DRIED_AT_HOME: "{food} dried at home",
    Kind.NOT_IDENTIFIED: "nobody is recorded as having identified them, nor that they were bought",
    Kind.DRYER_SET_TO: "the dryer was set to {heat:both}",
    Kind.PIECES_THICK: "the pieces are {thick:own} thick",
    Kind.SULFITED: "a sulfite or sulfur pretreatment is recorded",
    Kind.OFF_NOT_DRY: "by weight it is not dry enough; off the dryer, {because}",
    Kind.OFF_IN_DOUBT: "off the dryer; by weight it may or may not be dry",
    Kind.DRYNESS_UNKNOWN: "no weights show that it is dry",
    Kind.DRYNESS_IN_DOUBT: "by weight it may or may not be dry",
    Kind.NOT_CONDITIONED: "no conditioning is recorded",
    Kind.CONDITIONED_SHORT: "conditioned for {days:day|days}",
    Kind.WITH_ABSORBER: "packed with an oxygen absorber",
    Kind.IN_OIL: "packed in oil",
    Kind.IN_OIL_NOT_COLD: "packed in oil; {because}",
    Kind.BOUGHT: "bought",
    Kind.AIRLESS_NOT_DRY: "packed without air, and by weight not dry enough; {because}",
    Kind.AIRLESS_NOT_DRY_YET: (
        "packed without air, and by weight not dry enough; it has stood warm for 2 hours at most"
    ),
    Kind.AIRLESS_NOTHING_SHOWN: "packed without air; nothing on record shows that it is dry",
    Kind.AIRLESS_IN_DOUBT: "packed without air; by weight it may or may not be dry",
    Kind.NOT_DRY: "by weight it is not dry enough",
    Kind.NOT_DRY_AND_STOOD: "by weight it is not dry enough; {because}",
    Kind.FOUND_MOIST: "found moist",
    Kind.FOUND_MOIST_AND_STOOD: "found moist; {because}",
    Kind.STOOD_UNKNOWN: "how long it stood warm is not known",
    Kind.STOOD_HOT: "it stood above 90 °F (32 °C) for more than 1 hour",
    Kind.STOOD_WARM: "it stood above 40 °F (4 °C) for more than 2 hours",
    Kind.WATER_GOES_ON: "water goes on it",
    Kind.SOAKS: "it soaks for {minutes:own} at {at:both}",
    Kind.SOAKS_UNKNOWN_WARMTH: "it soaks for {minutes:own} at a temperature not known",
    Kind.SOAK_TIME_UNKNOWN: "how long it soaks is not recorded",
    Kind.SOAK_WARMTH_UNKNOWN: "how warm it soaks is not recorded",
    Kind.COLD_SOAK: "it is planned as a cold soak",
    Kind.NO_POT: "it is planned without a pot",
    Kind.ALTITUDE_UNKNOWN: "the altitude is not known",
    Kind.AT_ALTITUDE: "at {up:both}",
    # the journal's file
    Kind.NOTHING_TO_CHECK: "There is no journal at “{path}” yet, so there is nothing to check.",
    Kind.NOTHING_TO_BACK_UP: "There is no journal at “{path}” yet, so there is nothing to back up.",
    Kind.NOTHING_TO_WRITE_TO: "There is no journal at “{path}” yet; open it to write. {unchanged}",
    Kind.NO_BACKUP: "There is no file “{backup}” to restore. {unchanged}",
    Kind.BACKUP_IS_JOURNAL: "“{backup}” is the journal itself; name a backup of it. {unchanged}",
    Kind.MAY_BE_OPEN: "“{path}” is a journal that is open, or was not closed in order; give the copy another name.",
    Kind.BACKUP_NOT_WHOLE: "“{backup}” is not whole ({because}) {unchanged}",
    Kind.BACKUP_DAMAGED: "“{backup}” is itself damaged; choose another backup. {unchanged}",
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
    Kind.EMPTIED: (
        "“{path}” is empty or not there, and yet there are backups of it in “{backups}”: restore one, or move that "
        "folder away to begin a new journal. {unchanged}"
    ),
    Kind.FOREIGN: "“{path}” is not a Dryhouse journal, or its beginning is damaged; it was left as it is.",
    Kind.DAMAGED: "“{path}” is damaged and was left as it is; restore a copy from the folder “{backups}”.",
    Kind.DAMAGED_ALONE: (
        "“{path}” is damaged and was left as it is, and there is no backup of it: restore a copy kept elsewhere; "
        "without one, a check repairs what it can."
    ),
    Kind.LOG_ALONE: (
        "“{path}” is not there, though “{log}”, which belongs to it, is: put the file back beside it, or restore a "
        "backup; to begin a new journal, move “{log}” away. {unchanged}"
    ),
    Kind.STRANGE_FILE: (
        "“{path}” holds “{name}”, which this program did not put there and which could change your records; the "
        "file was left as it is. Check the journal to have it removed, or restore a backup."
    ),
    Kind.UNSOUND_JOURNAL: (
        "“{path}” holds records that cannot be right, so this could not be worked out. {unchanged}"
    ),
    Kind.DISK_FULL: "The disk that holds “{path}” is full; make room and try again. {unchanged}",
    Kind.ONLY_READ: ("“{path}” can only be read; change its permissions or copy it elsewhere. {unchanged}"),
    Kind.BUSY: ("Another program is using “{path}” just now; try again when it has finished. {unchanged}"),
    Kind.STILL_BELONGS: ("Other records still depend on it, or refer to something that is missing. {unchanged}"),
    Kind.SAME_NAME: "The journal already has one of that name. {unchanged}",
    Kind.SAME_NUMBER: "The journal already has an entry of that number. {unchanged}",
    Kind.NO_WAY_IN: (
        "“{path}” cannot be opened: this program has no permission for the file or its folder. {unchanged}"
    ),
    Kind.DISK_FAILED: "The disk that holds “{path}” failed or is full ({name}). {unchanged}",
    Kind.COULD_NOT_BE_USED: "“{path}” could not be used ({error}). {unchanged}",
    # what is wrong in a journal
    Kind.FILE_DAMAGED: "The file is damaged: {found}.",
    Kind.PART_MISSING: "The {what} {name} is missing from the file.",
    Kind.STRANGE_PART: "“{name}” in the file was not put there by this program.",
    Kind.BELONGS_TO_NOTHING: "{table} {number} belongs to a {target} that is not there.",
    Kind.UNREADABLE_RECORD: "{what} {number} holds something that cannot be read.",
    Kind.UNSOUND_RECORD: "{what} {number}: {because}",
    Kind.UNSOUND_RECORD_NAMED: "{because}",
    Kind.WRONG_WORDS: "The search index does not match the batches.",
    Kind.FAULTY_BACKUP: "The backup “{path}” is not whole and cannot be restored.",
    # what was mended
    Kind.NOT_MENDABLE: (
        "“{path}” cannot be repaired: parts of it are gone, or it is an older one; restore a backup. {unchanged}"
    ),
    Kind.TAKEN_OUT: "“{name}” was removed from the file.",
    Kind.MADE_ANEW: "The index {name} was rebuilt.",
    Kind.WORDS_MADE_ANEW: "The search index was rebuilt.",
    Kind.LINK_EMPTIED: "{what} {number} referred to a {name} that is missing; the reference was removed.",
    Kind.SET_ASIDE: "Moved {count:record|records} that could not be read out of the journal, to “{path}”.",
    Kind.FORMER_KEPT: "The file as it was is kept as “{path}”.",
    Kind.OVERDRAWN: "Lot {number} ({food}) has given more than it weighed.",
}
