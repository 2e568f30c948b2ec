"""What is said where a trip's drying cannot be done in time: bag by bag, then what would help."""

from __future__ import annotations

from collections.abc import Sequence

from dryhouse.science.display import counted

NO_DRYER = "No dryer is recorded: add one, and the loads get their hours."
NO_AREA = "No dryer has its tray area recorded: add it, and the loads get their trays."
NO_PLACE = "No place is recorded where jars stand until the trip: add one, such as pantry or freezer."
NO_LOT = "Nothing is on the shelf yet: what you have dried or bought already can be put there."

PAST = "the day before departure is past"
NO_YIELD = "its yield is not known yet"
NO_HOURS = "its drying hours are not known yet"
NO_DRYER_FITS = "no dryer has its tray area recorded and gets as hot as it needs"
ANY_OF = "Any one of these would help:"


def no_time(hours: float, conditioning_days: int) -> str:
    """Why a food cannot be ready: `no dryer is free for 14 h and 10 days of conditioning before departure`."""
    condition = f" and {conditioning_days} days of conditioning" if conditioning_days else ""
    return f"no dryer is free for {hours:.0f} h{condition} before departure"


def no_hours_fit(hours: float) -> str:
    """`no run of 16 h fits the hours you keep: let dryers run at night, or change the hours`."""
    return f"no run of {hours:.0f} h fits the hours you keep: let dryers run at night, or change the hours"


def cannot_be_ready(name: str, short: str, all_of_it: str, why: str) -> str:
    """`onion: 2 oz of the 8 oz dried cannot be ready: …`, or that none of it can."""
    if short == all_of_it:
        return f"{name}: none of the {all_of_it} dried can be ready: {why}."
    return f"{name}: {short} of the {all_of_it} dried cannot be ready: {why}."


def whole_of(whole: int, bags: int) -> str:
    """`14 of the 18 bags can be complete.`"""
    if not whole:
        return "No bag can be complete." if bags > 1 else "The one bag cannot be complete."
    return f"{whole} of the {bags} bags can be complete."


def bag_lacks(bag: str, lacks: Sequence[str], bags: int = 1) -> str:
    """`Sun 22 Aug dinner, bean chili: lacks 1.4 oz of ground beef, 2 oz of onion.`"""
    return f"{bag}: {'each lacks' if bags > 1 else 'lacks'} {', '.join(lacks)}."


def buy_dried(amount: str, name: str, whole: int, bags: int) -> str:
    """`Buy 4.2 oz of dried carrot: then all 5 bags are complete.`"""
    return f"Buy {amount} of dried {name}: {_then(whole, bags)}."


def buy_all_dried(names: str, whole: int, bags: int) -> str:
    """`Buy carrot, onion dried: then every bag is complete.`"""
    return f"Buy all of these dried ({names}): {_then(whole, bags)}."


def leave_out(bags: int) -> str:
    """`Leave out the 3 bags that lack something.`"""
    return (
        f"Leave out the {bags} bags that lack something." if bags > 1 else "Leave out the bag that lacks something."
    )


def another_dryer(name: str, whole: int, bags: int) -> str:
    """`A second dryer like shelf dryer: then all 5 bags are complete.`"""
    return f"A second dryer like {name}: {_then(whole, bags)}."


def one_more_week(whole: int, bags: int) -> str:
    """`One more weekend, leaving a week later: then 4 of the 5 bags are complete.`"""
    return f"One more weekend, leaving a week later: {_then(whole, bags)}."


def _then(whole: int, bags: int) -> str:
    if whole == bags:
        return "then every bag is complete" if bags > 1 else "then the bag is complete"
    return f"then {whole} of the {counted(bags, 'bag')} {'is' if whole == 1 else 'are'} complete"
