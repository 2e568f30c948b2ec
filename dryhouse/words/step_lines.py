"""What each kind of step says. The slots are the names of its terms; `result` is what comes out."""

from __future__ import annotations

from collections.abc import Mapping

from dryhouse.science.workings import StepKind as Kind

LINES: Mapping[Kind, str] = {
    # moisture and mass
    Kind.DRY_MATTER: "{food}: {loaded} × (1 − {water}) = {result} dry matter",
    Kind.LOADED_TOGETHER: "Together: {loaded} loaded, {result} dry matter",
    Kind.TARGET_MOISTURE: "Target {target} moisture wet basis",
    Kind.TARGET_MASS: "Target mass = {solids} ÷ (1 − {target}) = {result}",
    Kind.MOISTURE_NOW: "Moisture = 1 − {solids} ÷ {mass} = {result} wet basis",
    # air and sorption
    Kind.CHAMBER_AIR: (
        "Kitchen air at {kitchen} and {humidity} holds {water:3} parts of water in 1000 of dry air; "
        "warmed to {dryer} that is {result} relative humidity (PsychroLib)"
    ),
    Kind.GAB_MOISTURE: (
        "GAB with m0 {m0:bare}, C {c:bare}, K {k:bare} at water activity {activity:3}: {result:bare} of "
        "water for 1 of dry matter"
    ),
    Kind.MOISTURE_RANGE: "Moisture {moisture:bare} of water for 1 of dry matter ({low:bare} to {high:bare})",
    Kind.GAB_ACTIVITY: ("GAB with m0 {m0:bare}, C {c:bare}, K {k:bare}, solved for the water activity: {result:2}"),
    Kind.ACTIVITY_BELOW: "The cautious end, {high:2}, is below {limit:2}: {what}",
    Kind.ACTIVITY_NOT_BELOW: "The cautious end, {high:2}, is not below {limit:2}: {what}",
    Kind.NO_MEASUREMENT: "An estimate from published constants is no measurement; it says nothing of safety.",
    # keeping
    Kind.LIFE_PUBLISHED: "Published life: {result} at {at}",
    Kind.LIFE_COLDEST: "Colder than the coldest published point: {result} at {at} holds",
    Kind.LIFE_NEXT_WARMER: "The next warmer limit holds: {result} at {at}",
    Kind.LIFE_BETWEEN: (
        "Life at {temperature}, on the line of log life between {cool} at {cool_at} and {warm} at "
        "{warm_at}: {result}"
    ),
    Kind.LIFE_HOTTER: (
        "Life at {temperature}, hotter than {hottest} at {hottest_at}: shortened to {result}, never lengthened"
    ),
    Kind.STRETCH_LEFT: "At {temperature} (1 − {used}) × {life} = {result} left",
    Kind.STRETCH_USED: "At {temperature} {spent} use {spent} ÷ {life} = {result} of the life",
    Kind.SUPPOSED: "Supposed: {what}",
    Kind.PLACE_TEMPERATURE_MISSING: "The temperature is not recorded",
    Kind.NO_LIFE_PUBLISHED: "No keeping time is published for this food",
    # nutrition
    Kind.ENERGY_HELD: "{food}: {mass} × {energy} = {result}",
    Kind.NUTRIENT_HELD: "{food}: {mass} hold {result:own}",
    Kind.NUTRIENT_TOGETHER: "Together {result:own}",
    Kind.SHARE_HELD: "{what}: × {share:3} = {result:own}",
    Kind.NOT_KNOWN_FOR: "Not known for {foods}: at least this much",
    # the pot
    Kind.BOILS_AT: "At {height} water boils at {result}",
    Kind.BOILS_ELSEWHERE: "Another table says {result}; the cooler pot rules",
    Kind.FRESH_WEIGHED: "Fresh it weighed {dried} ÷ {ratio} = {result}",
    Kind.WATER_BACK: "Water = {fresh} − {dried} = {lost}; at {density} that is {result}",
    Kind.NO_OWN_WATER: "{mass}, no water of its own counted",
    Kind.WATER_CORRECTED: (
        "Corrected by cooking notes on {what}, n={n}: × {factor} (the calculated figure counts as "
        "{prior:bare} more) = {result}"
    ),
    Kind.WATER_TOGETHER: "Taken up together: {result}",
    Kind.LOOSE_LIQUID: "Loose liquid of a {style}: {back} as it comes back × {each} = {result}",
    Kind.BOIL_RATE: "Pot {across} across: {surface} × {rate} = {result}",
    Kind.BOIL_RATE_ASSUMED: "Pot {across} across (assumed: {why}): {surface} × {rate} = {result}",
    Kind.BOIL_OFF: "Boil-off: {minutes} × {rate} = {result}",
    Kind.WATER_CALCULATED: "Calculated: {result}",
    Kind.WATER_FOR_POT: "Water for the pot: {result}",
    # yields
    Kind.OWN_CUP: "A cup of it {state} weighs {result}, by your own measured volumes (n={n})",
    Kind.PUBLISHED_CUP: "A cup {state}, {cut}: {result}",
    Kind.PUBLISHED_CUP_ANY: "A cup {state}, cut not stated: {result}",
    Kind.MEAN_CUP: "A cup {state}: {result}, the mean of {n}",
    Kind.CUPS_STRAY: "Cups of it stray by {spread} (SD)",
    Kind.RAW_SOLIDS: "Raw: {water} water, so {result} solids",
    Kind.DRIED_SOLIDS: "Dried: {water} water, so {result} solids",
    Kind.DRIED_SOLIDS_NOTE: "Dried: {water} water, so {result} solids ({note})",
    Kind.MASS_BALANCE: "Mass balance: {raw} ÷ {finished} = {result} dried for 1 prepared",
    Kind.PUBLISHED_YIELD: "Published: {dried} dried ÷ {prepared} prepared = {result}",
    Kind.PUBLISHED_YIELD_AS_BOUGHT: (
        "Published: {dried} dried ÷ ({bought} as purchased × (1 − {refuse} refuse)) = {result}"
    ),
    Kind.AT_HOME_FINISH: "That was at {end} water; at {home}: {result}",
    Kind.JOINED_PUBLICATION: "Joined with the published yield: {result}",
    Kind.JOINED_PUBLICATIONS: "Joined with {n} publications, each one voice: {result}",
    Kind.YIELD_STRAYS: (
        "Strays from batch to batch by {batches:2} (raw water, finish), and published yields by a further"
        " {tables:2} (SD, {n} comparisons)"
    ),
    Kind.HANDBOOK_YIELD: "Handbook: {result}, 80 % between {low} and {high}",
    Kind.OWN_YIELD: "Your batches (n={n}): {result} dried for 1 prepared, the mean of their logarithms",
    Kind.OWN_YIELD_RANGE: "By themselves: 80 % between {low} and {high}",
    Kind.OWN_YIELD_ALONE: "One batch alone shows no spread, so it makes no interval",
    Kind.JOINED_WEIGHTS: "Joined: the handbook weighs as much as {weight:2} batches, yours as {n:bare}",
    Kind.JOINED_WEIGHTS_OTHERS: (
        "Joined: the handbook weighs as much as {weight:2} batches, yours as {n:bare} ({others} of "
        "another form count {each:bare} each)"
    ),
    Kind.JOINED_YIELD: (
        "exp[({weight:3} × ln {handbook} + {n:bare} × ln {own}) ÷ {together:3}] = {result}, 80 % between "
        "{low} and {high}"
    ),
    # the forecast
    Kind.KNOWN_SOLIDS: "Dry matter {result} of {first}",
    Kind.KNOWN_SOLIDS_ROUGHLY: "Dry matter {result} ± {spread:2} of {first}",
    Kind.FORECAST_TARGET: "Weight at {target} moisture: {solids} ÷ (1 − {target}) = {result}",
    Kind.SETTLES_AT: "Settles at {level:bare} of water for 1 of dry matter ({low:bare} to {high:bare})",
    Kind.EXPECTED_RATE: "Beforehand: Page k {k:3} per h^{n:3}, its rate good to a factor of {factor:2}",
    Kind.HALF_GONE: "{n} weighings: half of the free water gone after {result} ({low} to {high})",
    Kind.CURVE_SHAPES: (
        "Curve: surface against inside b = {b:2}, falling rate of order p = {p:3} (means over "
        "{allowed:bare} of {tried:bare} curves that the weighings allow)"
    ),
    Kind.MODEL_ERROR: (
        "Model error: the run's clock wanders by {drift:2} for each e-fold of time (between {low:2} and {high:2})"
    ),
    Kind.PUBLISHED_RATE_MOVED: (
        "Published at {from_heat}, moved to {to_heat}: {result:3} times as fast (activation energy {energy})"
    ),
    Kind.PUBLISHED_HOURS: "Published drying time {low} to {high}",
}
