"""Every figure of a batch has its own caption."""

from dryhouse.science.display import METRIC, Style
from dryhouse.science.statuses import FigureId
from dryhouse.words.captions import caption, short_caption


def test_every_figure_has_a_caption_and_no_two_have_the_same():
    assert len({caption(id) for id in FigureId}) == len(FigureId)


def test_a_figure_that_holds_at_a_temperature_names_it_in_both_scales():
    assert caption(FigureId.KEEPS, 15.5556) == "Keeps at 60 °F (16 °C)"
    assert caption(FigureId.YIELD_BY_WEIGHT) == "Yield by weight"


def test_where_room_is_short_only_her_own_scale_is_named():
    assert short_caption(FigureId.KEEPS, 15.5556, Style()) == "Keeps at 60 °F"
    assert short_caption(FigureId.KEEPS, 15.5556, Style(METRIC)) == "Keeps at 16 °C"
    assert short_caption(FigureId.WATER_BACK, None, Style()) == "Water to add"
    assert short_caption(FigureId.KEEPS, None, Style()) == "Keeps"
