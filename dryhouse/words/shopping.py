"""How food is bought, in words: its form, what the amount is of, and how many pieces that is."""

from __future__ import annotations

from collections.abc import Mapping

FRESH, READY, FROZEN, CANNED, RAW, COOKED, DRIED = "fresh", "ready", "frozen", "canned", "raw", "cooked", "dried"

CAPTIONS: Mapping[str, str] = {
    FRESH: "fresh, whole",
    READY: "fresh, cut or shelled",
    FROZEN: "frozen",
    CANNED: "canned",
    RAW: "raw or dry, to cook",
    COOKED: "cooked",
    DRIED: "bought dried",
}
"""Each form as a choice."""

NOTES: Mapping[str, str] = {
    FRESH: "as purchased",
    READY: "cut or shelled, as it goes on the trays",
    FROZEN: "frozen, as it goes on the trays",
    CANNED: "canned, weighed drained",
    RAW: "raw or dry, to be cooked before it is dried",
    COOKED: "bought cooked, weighed cooked",
    DRIED: "bought dried",
}
"""What the amount of a shopping line is of."""

NO_REFUSE = "prepared weight; no refuse figure is known"
NOT_KNOWN_RAW = "cooked weight; how much raw gives it is not known"
BY_MEASURE = "by measure; its weight is not known"
NOT_IN_TIME = "not all of it can be dried in time"
SOME_UNWEIGHED = "some of it without a weight"


def caption(food: str, form: str) -> str:
    """The form as a choice for one food: corn is bought as kernels or on the cob."""
    own = {("corn", FRESH): "on the cob, in the husk", ("corn", READY): "kernels"}
    return own.get((food.removeprefix("white-"), form), CAPTIONS[form])


def note(food: str, form: str) -> str:
    """What the amount is of, for one food."""
    if food.removeprefix("white-") == "corn" and form in (FRESH, READY):
        return caption(food, form)
    return NOTES[form]


def on_the_shelf(amount: str) -> str:
    """`8 oz more is on the shelf`."""
    return f"{amount} more is on the shelf"


def about_pieces(count: int, piece: str) -> str:
    """`about 12 medium`, `about 3 medium heads`."""
    plural = piece if count == 1 or (" " not in piece and piece in ("large", "medium", "small")) else f"{piece}s"
    return f"about {count} {plural}"


def in_shop(name: str, form: str, animal: bool) -> str:
    """What food is called where it is bought: `ground beef, raw`, `lentil, dry`, `sweet corn, frozen`."""
    plain = name.replace(", cooked", "")
    if form == RAW:
        return f"{plain}, {'raw' if animal else 'dry'}"
    said = {FROZEN: f"{plain}, frozen", CANNED: f"{plain}, canned", COOKED: name, DRIED: f"{plain}, dried"}
    return said.get(form, name)
