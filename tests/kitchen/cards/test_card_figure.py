"""A figure of a batch is found by its name and shown under its caption."""

from dryhouse.kitchen.cards.card_figure import CardFigure
from dryhouse.science.statuses import FigureId
from dryhouse.science.values import Figure


def test_the_caption_comes_from_the_name_and_the_temperature_it_holds_at():
    assert CardFigure(FigureId.WATER_BACK, Figure(740, "ml")).caption == "Water to bring it back"
    assert CardFigure(FigureId.KEEPS, Figure(180, "day"), 26.6667).caption == "Keeps at 80 °F (27 °C)"
