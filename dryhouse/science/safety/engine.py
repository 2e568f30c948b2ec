"""Facts in, cautions out. The engine walks the facts, asks each rule's condition, and sorts the answers."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from dryhouse.science.messages import Message
from dryhouse.science.safety.facts import BatchFacts, Facts, FoodFacts, LotFacts, MealFacts
from dryhouse.science.safety.families import drying, identity, packing, precook, serving, storage, undried
from dryhouse.science.safety.rules import Condition, Rule
from dryhouse.science.values import Caution, gravest_first

_FAMILIES = (precook, identity, drying, packing, undried, storage, serving)
_CONDITIONS: dict[str, tuple[type, Condition]] = {
    name: (family.ASKS, condition) for family in _FAMILIES for name, condition in family.CONDITIONS.items()
}

_SURFACES: dict[type, str] = {FoodFacts: "food", BatchFacts: "batch", LotFacts: "lot", MealFacts: "meal"}


def condition_names() -> frozenset[str]:
    """Every condition a rule may name in `when`."""
    return frozenset(_CONDITIONS)


def evaluate(facts: Facts, rules: Iterable[Rule]) -> tuple[Caution, ...]:
    """Every caution that belongs to these facts, the gravest first, each rule once with all its reasons."""
    return gravest_first(
        Caution(
            rule.severity,
            rule.text,
            rule.source,
            rule.id,
            reasons,
            rule.moment,
            rule.effect,
            rule.short,
            rule.rank,
        )
        for rule, reasons in rules_that_speak(facts, rules).items()
    )


def rules_that_speak(facts: Facts, rules: Iterable[Rule]) -> dict[Rule, tuple[Message, ...]]:
    """Every rule that speaks, in the order given, with its reasons."""
    surface = _SURFACES[type(facts)]
    walked = (*_walk(facts), MealFacts((facts,))) if isinstance(facts, FoodFacts | LotFacts) else _walk(facts)
    nodes = [(node, node.kinds) for node in walked]
    spoken: dict[Rule, tuple[Message, ...]] = {}
    for rule in rules:
        if surface not in rule.said_of:
            continue
        asks, condition = _CONDITIONS[rule.when]
        reasons = dict.fromkeys(
            reason
            for node, kinds in nodes
            if isinstance(node, asks) and rule.concerns(kinds) and (reason := condition(node, rule)) is not None
        )
        if reasons:
            spoken[rule] = tuple(reasons)
    return spoken


def _walk(facts: Facts) -> Iterator[Facts]:
    """The facts and everything inside them. A food alone is a batch and a lot of which nothing is known;
    a lot that was not bought was dried at home, whatever is known of its batch."""
    match facts:
        case FoodFacts():
            batch = BatchFacts(facts)
            yield from (facts, batch, LotFacts(facts, batch))
        case BatchFacts():
            yield from (facts, facts.food)
        case LotFacts(batch=None, bought=True):
            yield from (facts, facts.food)
        case LotFacts(batch=None):
            yield from (facts, BatchFacts(facts.food), facts.food)
        case LotFacts(batch=BatchFacts() as batch):
            yield from (facts, batch, batch.food, facts.food)
        case MealFacts():
            yield facts
            for part in facts.parts:
                yield from _walk(part)
