"""How a batch was heated, in a line: every temperature in both scales, so that a slip of scale is seen."""

from __future__ import annotations

from dryhouse.kitchen.records import Batch
from dryhouse.kitchen.records.batches import NOT_MEASURED, THERMOMETER
from dryhouse.science.quantities import Duration
from dryhouse.science.units import both_scales, both_scales_exactly, to_fahrenheit

_WHOLE_F = 0.05
_KNOWN = {
    THERMOMETER: ", read off a thermometer",
    NOT_MEASURED: ", not measured",
    "": "; nobody wrote down how that is known",
}


def heating_lines(batch: Batch) -> tuple[str, ...]:
    """What is recorded of the heat before drying and after it; nothing where nothing is."""
    said = []
    reached, method = batch.precook_temperature, batch.precook_method
    how = f" ({method})" if method else ""
    if reached is not None:
        known = _KNOWN.get(batch.precook_measured, "")
        said.append(f"Precooked to {_as_read(reached.si)}{_held(batch.precook_held)}{how}{known}.")
    elif method:
        said.append(f"Cooked first: {method}; no temperature is recorded.")
    if batch.finish_temperature is not None:
        oven = both_scales(batch.finish_temperature.si)
        said.append(f"After drying in an oven at {oven}{_held(batch.finish_held)}; this lifts no caution.")
    return tuple(said)


def _as_read(celsius: float) -> str:
    """In whole degrees where it is one in °F; else to the tenth, so that 164.9 °F never looks like 165."""
    fahrenheit = to_fahrenheit(celsius)
    whole = abs(fahrenheit - round(fahrenheit)) < _WHOLE_F
    return both_scales(celsius) if whole else both_scales_exactly(celsius)


def _held(held: Duration | None) -> str:
    return "" if held is None else f", held for {held.si / 60:g} min"
