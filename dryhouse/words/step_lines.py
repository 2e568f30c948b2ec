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
}
