"""What a chart of a run shows is what the words beside it say."""

import pytest

from dryhouse.desk.places.dryer.pictures import picture_of
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.plots.curve_picture import WET
from dryhouse.science.display import Style


def test_the_line_of_the_target_stands_at_the_target_and_the_last_weighing_at_the_moisture_that_is_said(hands):
    batch = hands.start()
    hands.dry(batch, (1, 2, 4, 6, 8, 10))
    run = run_of(hands.kitchen, batch)
    picture = picture_of(hands.kitchen, run, Style())
    assert picture.on(WET, picture.target_g) == pytest.approx(run.target.value)
    assert picture.on(WET, picture.grams[-1]) == pytest.approx(run.moisture.value, abs=1.0)
