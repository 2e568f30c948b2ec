"""`dryhouse plan` and the window agree on every figure of a trip."""

from __future__ import annotations

import re

from dryhouse.cli.verbs.plan import _to_buy, _to_dry, plan_json
from dryhouse.desk.places.meals.wording import drying_page, shopping_page
from dryhouse.desk.widgets.printing import document
from dryhouse.house import open_kitchen
from dryhouse.kitchen.settings import style
from dryhouse.kitchen.trips.plan_rows import run_rows
from dryhouse.kitchen.trips.provisioning import plan
from dryhouse.kitchen.trips.trips import find_trip

FIGURE = re.compile(r"\d[\d.]*(?: lb(?: [\d.]+ oz)?| oz| trays?| °F)|\d\d:\d\d|\d+ \w{3} \d\d:\d\d")


def test_every_figure_of_the_command_line_stands_in_the_window(qapp) -> None:
    with open_kitchen(None, sample=True) as kitchen:
        worked, notation = plan(kitchen, find_trip(kitchen, "2027").id), style(kitchen)
        drying = document("", drying_page(worked, notation, kitchen)).toPlainText()
        shopping = document("", shopping_page(worked, notation)).toPlainText()
        said = [line.partition("  STOP")[0] for line in _to_dry(kitchen, worked, notation)][1:]
        bought = [line.partition("  STOP")[0] for line in _to_buy(worked, notation)][1:]
        assert len(said) == len(worked.calendar.runs) > 5
        for line in said:
            figures = FIGURE.findall(line)
            assert len(figures) >= 4
            assert all(figure in drying for figure in figures)
        for line in bought:
            assert all(figure in shopping for figure in FIGURE.findall(line))
        answer = plan_json(kitchen, worked)
        rows = run_rows(kitchen, worked, notation)
        assert [run["start"] for run in answer["calendar"]] == [row.start.isoformat() for row in rows]
        assert [notation.temperature(run["temperature_c"]) for run in answer["calendar"]] == [r.heat for r in rows]


def test_a_plan_in_words_has_at_most_forty_lines(capsys) -> None:
    from dryhouse.cli import main

    assert main(["--sample", "plan", "Lake circuit 2027"]) == 0
    assert len(capsys.readouterr().out.splitlines()) <= 40
    assert main(["--sample", "plan", "Lake circuit 2027", "--full"]) == 0
    full = capsys.readouterr().out
    assert "add --full" not in full
    assert "onion" in full
