"""What a lot is called, and the order lots stand in."""

from datetime import date
from itertools import permutations

from dryhouse.kitchen.records import Lot
from dryhouse.kitchen.shelf.lines import ShelfLine, in_order, titled
from tests.rows import every_row

DAY = date(2026, 1, 1)


def line(id, standing, keep_by=None, **more):
    return ShelfLine(Lot("corn", DAY, id=id), "sweet corn", standing, "", keep_by, None, None, "", **more)


@every_row(
    ("what", "name", "title"),
    [
        ("sweet corn", "", "Sweet corn"),
        ("sweet corn", "jar 1 of 2", "Sweet corn, jar 1 of 2"),
        ("corn", "the first corn", "The first corn"),
        ("", "", ""),
    ],
)
def test_a_title_never_says_the_food_twice(what, name, title):
    assert titled(what, name) == title


def test_a_batchs_title_stands_for_the_food():
    assert line(1, "keeping", called="corn of the lake garden").title == "Corn of the lake garden"


def test_the_gravest_stands_first_then_what_goes_off_first():
    wanted = [
        line(5, "check first"),
        line(4, "past keep-by", DAY),
        line(3, "use soon", date(2026, 5, 1)),
        line(1, "keeping", date(2026, 6, 1)),
        line(2, "keeping", date(2026, 7, 1)),
        line(6, "keeping"),
    ]
    for some in list(permutations(wanted))[::97]:
        assert in_order(some) == wanted
