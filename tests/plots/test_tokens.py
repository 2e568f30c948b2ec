"""The look: text that can be read, series that can be told apart by every eye and in black and white."""

import itertools

import pytest

from dryhouse.plots.tokens import BLACK_ON_WHITE, DARK, LIGHT, VERDICT_TINTS, WHITE_ON_BLACK
from dryhouse.science.statuses import Status
from tests.plots.contrast import contrast, linear, luminance

LOOKS = pytest.mark.parametrize("look", [LIGHT, DARK, BLACK_ON_WHITE, WHITE_ON_BLACK], ids=lambda t: t.name)
STRONG = pytest.mark.parametrize("look", [BLACK_ON_WHITE, WHITE_ON_BLACK], ids=lambda t: t.name)
TEXT, GRAPHIC = 4.5, 3.0

# Machado, Oliveira, Fernandes (2009), "A physiologically-based model for simulation of color vision
# deficiency", matrices for full severity, on linear
# RGB (from memory).
BLINDNESS = {
    "protanopia": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deuteranopia": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritanopia": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


def lab(rgb: list[float]) -> tuple[float, float, float]:
    """CIE L*a*b* under D65, from linear RGB."""
    x, y, z = (
        sum(m * min(max(c, 0.0), 1.0) for m, c in zip(row, rgb, strict=True))
        for row in ((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505))
    )

    def f(t: float) -> float:
        return t ** (1 / 3) if t > (6 / 29) ** 3 else t / (3 * (6 / 29) ** 2) + 4 / 29

    fx, fy, fz = f(x / 0.9505), f(y), f(z / 1.089)
    return 116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)


def seen(colour: str, kind: str) -> tuple[float, float, float]:
    rgb = linear(colour)
    if kind == "usual":
        return lab(rgb)
    return lab([sum(m * c for m, c in zip(row, rgb, strict=True)) for row in BLINDNESS[kind]])


@LOOKS
def test_text_reaches_the_contrast_that_wcag_asks_for(look):
    grounds = (look.ground, look.surface, look.rail, look.accent_soft)
    pairs = [(ink, ground) for ink in (look.ink, look.muted) for ground in grounds]
    pairs += [(look.on_accent, look.accent), (look.accent, look.surface), (look.accent, look.ground)]
    pairs += [(look.hint, look.surface)]
    pairs += [(t.ink, t.ground) for t in (*look.severities.values(), *look.standings.values())]
    pairs += [(t.ink, look.surface) for t in look.severities.values()]
    assert {pair: contrast(*pair) for pair in pairs if contrast(*pair) < TEXT} == {}


@LOOKS
def test_an_example_in_an_empty_entry_is_not_taken_for_what_was_typed(look):
    assert contrast(look.hint, look.ink) > 1.7


@LOOKS
def test_edges_and_series_can_be_seen_on_their_ground(look):
    colours = [look.edge, *(s.colour for s in look.series)]
    assert {c: contrast(c, look.surface) for c in colours if contrast(c, look.surface) < GRAPHIC} == {}


@LOOKS
def test_series_are_told_apart_without_colour(look):
    assert len({str(s.dashes) for s in look.series}) == len(look.series)
    assert len({s.marker for s in look.series}) == len(look.series)


@LOOKS
@pytest.mark.parametrize("kind", ["usual", *BLINDNESS])
def test_the_first_three_series_are_told_apart_by_colour_too(look, kind):
    """A difference of 10 in CIE 1976 units is plain at a glance (2.3 is the least that is noticed)."""
    three = [seen(s.colour, kind) for s in look.series[:3]]
    for one, other in itertools.combinations(three, 2):
        assert sum((a - b) ** 2 for a, b in zip(one, other, strict=True)) ** 0.5 > 10


@LOOKS
def test_every_verdict_severity_and_standing_has_a_shape_of_its_own_kind(look):
    for word in (*look.severities, *look.standings, *VERDICT_TINTS):
        assert look.tint(word).shape
    assert len({t.shape for t in look.severities.values()}) == 3
    assert len({t.shape for t in look.standings.values()}) == len(look.standings)


@LOOKS
def test_do_not_eat_looks_like_a_stop_and_like_no_other_status(look):
    forbidden = look.tint("do not eat")
    assert forbidden == look.severities["stop"]
    others = [look.tint(status) for status in Status if status not in (Status.DO_NOT_EAT, Status.USED_UP)]
    assert all(forbidden.ink != other.ink and forbidden.shape != other.shape for other in others)


def test_what_one_touches_is_large_enough():
    assert LIGHT.target >= 40
    assert DARK.target >= 40


def test_contrast_of_black_and_white_is_twenty_one():
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert luminance("#FFFFFF") == pytest.approx(1.0)


@STRONG
def test_high_contrast_reaches_seven_to_one_for_every_text_and_border(look):
    tints = [*look.severities.values(), *look.standings.values()]
    pairs = [
        (look.ink, look.ground),
        (look.muted, look.surface),
        (look.hint, look.surface),
        (look.edge, look.surface),
        (look.line, look.ground),
    ]
    pairs += [(look.on_accent, look.accent), (look.accent, look.surface), (look.ink, look.accent_soft)]
    assert min(contrast(*pair) for pair in (*pairs, *((t.ink, t.ground) for t in tints))) >= 7


def test_larger_text_is_larger_everywhere_and_leaves_room_to_touch():
    large = LIGHT.enlarged(2)
    assert (large.small, large.body, large.figure) == (2 * LIGHT.small, 2 * LIGHT.body, 2 * LIGHT.figure)
    assert large.target >= 2 * large.body
    assert LIGHT.enlarged(1) is LIGHT
