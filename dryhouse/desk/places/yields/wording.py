"""An answer in words: the sentence above the figures, the text that is copied, the page that is printed."""

from __future__ import annotations

from html import escape

from dryhouse.kitchen.yields.yields import FRESH, YieldAnswer
from dryhouse.plots.yields import Dot, Way, YieldPicture
from dryhouse.science.display import Style
from dryhouse.science.values import Figure, Measure
from dryhouse.science.yields.ratio import Ratio
from dryhouse.words.bases import basis_text
from dryhouse.words.workings import lines as workings


def question(answer: YieldAnswer, style: Style) -> str:
    """What the main figure answers: `1 cup of fresh sweet corn, dried`."""
    asked = asked_words(answer, style)
    return f"{_capital(asked)}, dried" if answer.direction == FRESH else f"Fresh, prepared, for {asked}"


def asked_words(answer: YieldAnswer, style: Style) -> str:
    """`1 cup of fresh sweet corn`, as typed. What is dried cooked is not called fresh."""
    name = answer.knowledge.food.name
    cooked = "cooked" in name.casefold().replace(",", " ").split()
    state = "dried " if answer.direction != FRESH else "" if cooked else "fresh "
    return f"{answer.asked.typed or style.show(answer.asked)} of {state}{name}"


def sentence(answer: YieldAnswer, style: Style) -> str:
    """The whole answer in a sentence or two."""
    verb = "gives about" if answer.direction == FRESH else "takes about"
    after = "dried" if answer.direction == FRESH else "prepared"
    figure = answer.joined
    said = f"{_capital(asked_words(answer, style))} {verb} {style.figure(figure)} {after}"
    if figure.measure is not None:
        said += f", or {_amount(style, figure.measure)}"
    said += "."
    if figure.low is not None:
        ends = style.interval(figure)
        if figure.measure is not None and figure.measure.low is not None and figure.measure.high is not None:
            ends += f", or {measure_interval(style, figure.measure)}"
        said += f" 80 % likely between {ends.replace(' to ', ' and ')}."
    return said


def measure_interval(style: Style, measure: Measure) -> str:
    """`3 tbsp to ½ cup`."""
    if measure.low is None or measure.high is None:
        return ""
    return f"{style.amount(measure.low, measure.unit)} to {style.amount(measure.high, measure.unit)}"


def rests_on(answer: YieldAnswer) -> str:
    """What the answer rests on, and what was left out, in a line."""
    n, out = answer.n_own, answer.left_out
    if n == 0:
        said = "This is the handbook's answer; it becomes yours as you log finished batches with both weights."
    elif answer.handbook is None:
        said = f"This rests on your {_batches(n)} alone."
    else:
        weight = answer.knowledge.handbook.belief.weight if answer.knowledge.handbook else 0.0
        said = f"Your {_batches(n)} combined with the handbook (counts as {weight:.1f} batches)."
    if out:
        said += f" Left out: {_batches(out)} whose weights don't add up."
    return said


def copied(answer: YieldAnswer, style: Style) -> str:
    """What the clipboard gets: the sentence, what to buy, the workings, the cautions."""
    lines = [sentence(answer, style), rests_on(answer)]
    if answer.as_purchased is not None:
        lines.append(f"As purchased: {style.load_of(answer.as_purchased)}")
    lines += [f"{t.dryer.name}: {_trays(t.trays, style)}" for t in answer.trays]
    if answer.hours is not None:
        lines.append(f"Hours: {style.figure(answer.hours)}")
    lines += ["", "Workings", *workings(answer.joined.workings, style)]
    lines += ["", "Basis", *(basis_text(b, style) for b in answer.joined.basis)]
    if answer.joined.cautions:
        lines += ["", "Cautions", *(f"{c.severity.upper()}: {c.text} [{c.source}]" for c in answer.joined.cautions)]
    return "\n".join(lines)


def page(answer: YieldAnswer, style: Style) -> str:
    """The printed page, as simple HTML."""
    head, *rest = copied(answer, style).split("\n")
    body = "".join(f"<h2>{escape(r)}</h2>" if r in _HEADINGS else f"<p>{escape(r)}</p>" for r in rest if r)
    return f"<h1>{escape(_capital(answer.knowledge.food.name))}</h1><p><b>{escape(head)}</b></p>{body}"


_HEADINGS = frozenset({"Workings", "Basis", "Cautions"})


def picture(answer: YieldAnswer, style: Style) -> YieldPicture:
    """What the chart shows of this food."""
    known = answer.knowledge
    ways = []
    if known.handbook is not None:
        ways.append(_way("Handbook", known.handbook.ratio))
    if known.own is not None:
        ways.append(_way(f"Your batches ({len(known.dots)})", known.own))
        if known.handbook is not None and known.joined is not None:
            ways.append(_way("Both together", known.joined))
    dots = tuple(
        Dot(100 * d.ratio, f"batch {d.batch}{f', {d.form}' if d.form else ''}", d.same) for d in known.dots
    )
    return YieldPicture(known.food.name, tuple(ways), dots)


def _way(name: str, ratio: Ratio) -> Way:
    if ratio.predictive is None:
        return Way(name, 100 * ratio.value)
    return Way(name, 100 * ratio.value, 100 * ratio.predictive.low, 100 * ratio.predictive.high)


def _trays(figure: Figure, style: Style) -> str:
    return f"{style.number(figure.value, 1)} trays"


def trays_lines(answer: YieldAnswer, style: Style) -> list[str]:
    """One line for each dryer: trays, and how many loads of it that makes."""
    lines = []
    for t in answer.trays:
        loads = "1 load" if t.batches_high == 1 else f"{t.batches} to {t.batches_high} loads"
        if t.batches == t.batches_high and t.batches > 1:
            loads = f"{t.batches} loads"
        lines.append(f"{t.dryer.name}: {_trays(t.trays, style)} of {t.dryer.trays}, {loads}")
    return lines


def _amount(style: Style, measure: Measure) -> str:
    return style.amount(measure.value, measure.unit)


def _batches(n: int) -> str:
    return "1 batch" if n == 1 else f"{n} batches"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
