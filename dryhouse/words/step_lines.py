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
    Kind.DRY_AS_LOADED: "That is more than was loaded: it is as dry as its target already, at {result}",
    Kind.DRY_MATTER_LEARNED: "What was weighed leaves {low} to {high} of dry matter (80 % likely); taken: {result}",
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
    Kind.LIFE_COLDEST: "Colder than the coldest published point: at least the {result} at {at}",
    Kind.LIFE_NEXT_WARMER: "The next warmer limit is used: {result} at {at}",
    Kind.LIFE_BETWEEN: (
        "Life at {temperature}, on the line of log life between {cool} at {cool_at} and {warm} at "
        "{warm_at}: {result}"
    ),
    Kind.LIFE_HOTTER: (
        "Life at {temperature}, on the line of log life through {cool} at {cool_at} and {hottest} at {hottest_at}, "
        "extended: {result}"
    ),
    Kind.LIFE_HALVED: (
        "Life at {temperature}: {hottest} at {hottest_at}, halved for each {each} hotter [{rule}], "
        "× {factor:3} = {result}"
    ),
    Kind.STRETCH_LEFT: "At {temperature} (1 − {used}) × {life} = {result} left",
    Kind.STRETCH_USED: "At {temperature} {spent} use {spent} ÷ {life} = {result} of the life",
    Kind.SUPPOSED: "Assumed: {what}",
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
    Kind.BOILS_ELSEWHERE: "Another table says {result}; the cooler figure is used",
    Kind.FRESH_WEIGHED: "Fresh it weighed {dried} ÷ {ratio} = {result}",
    Kind.WATER_LOST: "It lost {fresh} − {dried} = {lost}; at {density} that is {result}",
    Kind.WATER_TAKEN_UP: "It takes up {dried} × {each}; at {density} that is {result}",
    Kind.NO_MORE_THAN_LOST: "No more goes back than it lost: {result}",
    Kind.NO_OWN_WATER: "{mass}, no water of its own counted",
    Kind.WATER_CORRECTED: (
        "Corrected by {n:cooking note|cooking notes} on {what}: × {factor} (the calculated figure counts as "
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
    Kind.OWN_CUP: "A cup of it {state} weighs {result}, measured in {n:bare} of your batches",
    Kind.PUBLISHED_CUP: "A cup {state}, {cut}: {result}",
    Kind.PUBLISHED_CUP_ANY: "A cup {state}, cut not stated: {result}",
    Kind.MEAN_CUP: "A cup {state}: {result}, the mean of {n}",
    Kind.CUPS_STRAY: "Cups of it vary by {spread} (SD)",
    Kind.RAW_SOLIDS: "Raw: {water} water, so {result} solids",
    Kind.DRIED_SOLIDS: "Dried: {water} water, so {result} solids",
    Kind.DRIED_SOLIDS_NOTE: "Dried: {water} water, so {result} solids ({note})",
    Kind.MASS_BALANCE: "Mass balance: {raw} ÷ {finished} = {result} dried for 1 prepared",
    Kind.PUBLISHED_YIELD: "Published: {dried} dried ÷ {prepared} prepared = {result}",
    Kind.PUBLISHED_YIELD_AS_BOUGHT: (
        "Published: {dried} dried ÷ ({bought} as purchased × (1 − {refuse} refuse)) = {result}"
    ),
    Kind.AT_HOME_FINISH: "That was at {end} water; at {home}: {result}",
    Kind.JOINED_PUBLICATIONS: "Joined with what is published ({n:publication|publications}): {result}",
    Kind.PUBLICATIONS_WIDEN: "What is published of it counts in the range alone; the middle stays at {result}",
    Kind.YIELD_STRAYS: (
        "Varies from batch to batch by {batches:2} (raw water, finish), and published yields by a further"
        " {tables:2} (SD, {n} comparisons)"
    ),
    Kind.HANDBOOK_YIELD: "Handbook: {result}, 80 % between {low} and {high}",
    Kind.OWN_YIELD: "From {n:bare} of your batches: {result} dried for 1 prepared, the mean of their logarithms",
    Kind.OWN_YIELD_RANGE: "By themselves: 80 % between {low} and {high}",
    Kind.OWN_YIELD_ALONE: "One batch alone shows no spread, so it makes no interval",
    Kind.JOINED_WEIGHTS: "Combined: the handbook counts as {weight:2} batches, yours as {n:bare}",
    Kind.JOINED_WEIGHTS_OTHERS: (
        "Combined: the handbook counts as {weight:2} batches, yours as {n:bare} ({others} of "
        "another form count {each:bare} each)"
    ),
    Kind.JOINED_YIELD: (
        "exp[({weight:3} × ln {handbook} + {n:bare} × ln {own}) ÷ {together:3}] = {result}, 80 % between "
        "{low} and {high}"
    ),
    # the forecast
    Kind.KNOWN_SOLIDS: "Dry matter {result} of {first}",
    Kind.KNOWN_SOLIDS_ROUGHLY: "Dry matter {result} ({low} to {high}) of {first}",
    Kind.FORECAST_TARGET: "Weight at {target} moisture: {solids} ÷ (1 − {target}) = {result}",
    Kind.SETTLES_AT: "Settles at {level:bare} of water for 1 of dry matter ({low:bare} to {high:bare})",
    Kind.EXPECTED_RATE: "Beforehand: Page k {k:3} per h^{n:3}, its rate good to a factor of {factor:2}",
    Kind.HALF_GONE: "{n} weighings: half of the free water gone after {result} ({low} to {high})",
    Kind.CURVE_SHAPES: (
        "Curve: bends as Page's does with n = {exponent:3} (mean over the {allowed:bare} of {tried:bare} curves "
        "that the weighings allow)"
    ),
    Kind.MODEL_ERROR: (
        "Model error: the run's clock wanders by {drift:2} for each e-fold of time (between {low:2} and {high:2})"
    ),
    Kind.HEAT_FOLLOWED: (
        "After {at} the heat went from {from_heat} to {to_heat}: {result:3} times as fast from then on (activation "
        "energy {energy})"
    ),
    Kind.STOOD_STILL: "Almost nothing lost between {begin} and {end}: not counted as drying",
    Kind.PUBLISHED_RATE_MOVED: (
        "Published at {from_heat}, moved to {to_heat}: {result:3} times as fast (activation energy {energy})"
    ),
    Kind.PUBLISHED_HOURS: "Published drying time {low} to {high}",
    # a batch
    Kind.FAT_POURED_OFF: "Fat poured off: {before} − {fat} = {result} dry matter",
    Kind.ON_THE_TRAYS: "On the trays: {mass}, holding {result} of that dry matter",
    Kind.DRY_BASIS: (
        "Dry basis = {water} of water ÷ {solids} dry matter = {result:bare} of water for 1 of dry matter"
    ),
    Kind.MOISTURE_RATIO: "Moisture ratio = ({mass} − {solids}) ÷ {water} of water at the start = {result}",
    Kind.YIELD_BY_WEIGHT: "Yield = {dried} dried ÷ {loaded} loaded = {result}, or {ratio:3} : 1",
    Kind.YIELD_BY_MEASURE: "By measure = {dried} dried ÷ {loaded} loaded = {result}",
    Kind.WATER_PER_CUP: "For each cup of dried: {water} × {cup} ÷ {dried} = {result}",
    Kind.KEEPS_AIRTIGHT: "Packed airtight; an estimate of quality",
    Kind.DRIED_ON: "Dried {day} + {life} = {result}",
    # keeping at the shelf
    Kind.KEEPING_RULE: "{rule} = {result}",
    Kind.IN_PACKAGE: "At {temperature} in a closed {package}: {result}",
    Kind.NO_SPREAD: "No spread is published, so no interval is given; the package adds nothing to the life",
    # amounts
    Kind.DRIED_BY_MEASURE: "{typed} = {volume} × {density} = {result} dried",
    Kind.BY_MEASURE: "{volume} {state} × {density} = {result}",
    Kind.BY_MEASURE_TYPED: "{typed} = {volume} {state} × {density} = {result}",
    Kind.DRIED_FROM: "{start} × {ratio} = {result} dried",
    Kind.DRIED_FROM_RANGE: "{start} × {ratio} = {result} dried, 80 % between {low} and {high}",
    Kind.FRESH_FOR: "{start} ÷ {ratio} = {result} fresh, prepared",
    Kind.FRESH_FOR_RANGE: "{start} ÷ {ratio} = {result} fresh, prepared, 80 % between {low} and {high}",
    Kind.VOLUME_OF: "{mass} ÷ {density} = {result}",
    Kind.NO_HANDBOOK_YIELD: (
        "The handbook has no water content or no target for {food}; this rests on your batches alone."
    ),
    Kind.NO_FRESH_CUP: "What a cup of {food} weighs before drying is not known: type a weight.",
    Kind.NO_DRIED_CUP: "What a cup of it dried weighs is not known: the answer is a weight.",
    Kind.NO_MASS_BALANCE: (
        "What a cup of dried {food} weighs is not known, so there is no mass balance beside this"
    ),
    Kind.LEFT_OUT: "Left out: {n:own batch|own batches} whose weights don't add up (number {numbers})",
    Kind.PUBLISHED_WATER: "{each:bare} of {warmth} water for 1 of dried: {each:bare} × {dried} = {result}",
    Kind.PUBLISHED_WATER_SOAK: (
        "{each:bare} of {warmth} water for 1 of dried: {each:bare} × {dried} = {result}; soak at least {soak}"
    ),
    Kind.AS_PURCHASED: "As purchased: {prepared} ÷ (1 − {refuse} refuse) = {result}",
    Kind.OWN_TRAY_LOAD: "{dryer}: {result} a tray, the middle of your {n:load|loads}",
    Kind.PUBLISHED_TRAY_LOAD: "{dryer}: {load} × {area} = {result} a tray",
    Kind.TRAYS: "{dryer}: {prepared} ÷ {each} = {result:3} of {trays:bare}",
    Kind.OWN_HOURS: "Hours: {result}, the mean of {n:bare} of your batches, 80 % between {low} and {high}",
    Kind.OWN_HOURS_FEW: "Hours: {result}, from {n:bare} of your batches; fewer than {fewest} make no interval",
    Kind.PUBLISHED_HOURS_ONE: "Hours: {result}",
    Kind.PUBLISHED_HOURS_RANGE: "Hours: {result}, published range {low} to {high}",
    # the run
    Kind.OWN_RUNS: "Page from {n:earlier run|earlier runs} of yours: rate {rate:3} per h, n {exponent:3}",
    Kind.RUNS_MOVED: "{n:run|runs} of them moved to {heat} with an activation energy of {energy}",
    Kind.RUNS_SPREAD: "Spread of the rate ± {spread:2}, assuming ± {supposed:2} before any run (assumption)",
    Kind.LOGGED_HOURS: (
        "Your last {n:logged batch|logged batches} took about {result:3} at this temperature; taken as first order"
    ),
    Kind.MASS_OVER_FIRST: (
        "The curves are through mass over first mass; without a starting moisture there is no MR"
    ),
    Kind.MR_FROM_MASS: (
        "MR = (m − {solids}) ÷ ({first} − {solids}), from {water} starting moisture, equilibrium moisture"
        " taken as 0"
    ),
    # a meal
    Kind.BATCH_RATIO: "Its own batch: {dried} dried ÷ {prepared} prepared = {result}",
    Kind.LABEL_WATER: "{mass} × {each} = {result}",
    Kind.STAPLE_WATER: "{mass} × {each} = {result}",
    Kind.SLOWEST: "{food}: {result}",
    Kind.MINUTES_SET: "{result} as set for this meal",
    Kind.SIMMER_LONGER: "Simmering takes × {factor:3} as long there",
    Kind.NOTHING_COOKED: "Nothing is cooked",
    Kind.BOIL_AND_REST: "Boil {flame}, then stand in the wrapped pot",
    Kind.STEAM_HEAT: "To boil off {water} while it simmers, at {each}: {result:own}",
    Kind.MINUTES: "{result}",
    Kind.CAME_BACK_RIGHT: "Came back right after {result} (sea level) on {day}",
    Kind.CAME_BACK_HARD: "Came back hard after {noted} (sea level) on {day}: {result}",
    Kind.SOAKED_RIGHT: "Came back right after a soak of {result} on {day}",
    Kind.SOAKED_HARD: "Came back hard after a soak of {noted} on {day}: {result}",
    Kind.PART_WEIGHT: "{food}: {result}",
    Kind.TOGETHER: "Together {result}",
    Kind.ENERGY_PER_GRAM: "{energy} ÷ {mass} = {result}",
    Kind.ONE_SERVING: "One serving: × {share:3} = {result}",
    Kind.ONE_SERVING_HOLDS: "One serving: × {share:3} = {result:own}",
    # a trip
    Kind.FOR_EACH_PERSON: "For each person: ÷ {share:bare} = {result}",
    Kind.FOR_EACH_PERSON_DAY: "For each person and day: ÷ {share:bare} = {result}",
    Kind.EATEN_SHARE: (
        "{meal}: {carried} servings went, {uneaten} came back, {short} more were wanted: {result} % would have"
        " been right"
    ),
    Kind.SERVINGS_AGAIN: "{before} servings × {share} %, to the nearest {nearest} = {result}",
    Kind.BEFORE_COOKING: "Before cooking: {cooked} cooked ÷ {factor} = {result}",
    Kind.IN_BAGS: "{n:bag|bags}, together {result}",
    Kind.EATEN_ON_TRIP: "Eaten on the trip: {result} dried",
    Kind.FROM_SHELF: "The shelf gives {shelved}; {result} short",
    Kind.MARGIN: "Margin {margin}: {short} ÷ (1 − {margin}) = {result}",
    Kind.PREPARED_FOR: "Prepared: {dried} × {factor} = {result}",
    Kind.DRIED_TO_MAKE: "Together {result} dried to make",
    Kind.ONE_BAG: "{result}",
    Kind.HEAT_TO_BOIL: "To bring {water} from {start} to {boils}, at {each}: {result:own}",
    Kind.THROUGH_STOVE: "÷ {efficiency} of the fuel's heat that ends in the water = {result:own}",
    Kind.OWN_FUEL: "{heat:own} ÷ {liter:own} for a liter boiled × {each} = {result}",
}
