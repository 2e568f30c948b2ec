"""A journal that reads her own foods and figures once, and everything else each time."""

from dryhouse.kitchen.cached_journal import remembering
from dryhouse.kitchen.records import Batch, OwnFigure, OwnFood
from tests.fakes import FakeJournal


class Counting(FakeJournal):
    asked = 0

    def where(self, kind, **equals):
        self.asked += 1
        return super().where(kind, **equals)


def test_own_foods_and_figures_are_read_once_and_answered_alike():
    journal = Counting(
        OwnFood("stew", "stew", "mixed", id=1),
        OwnFood("pot", "pot", "mixed", id=2),
        OwnFigure("stew", "water", 80.0, "%", id=1),
        Batch("stew", id=1),
    )
    quick = remembering(journal)
    for _ in range(3):
        assert [f.name for f in quick.where(OwnFood)] == ["stew", "pot"]
        assert [f.name for f in quick.where(OwnFood, slug="pot")] == ["pot"]
        assert quick.where(OwnFigure, food="pot") == ()
    assert journal.asked == 2
    assert quick.get(Batch, 1) == journal.get(Batch, 1)
    assert [quick.where(Batch), quick.where(Batch)] == [journal.where(Batch)] * 2
    assert journal.asked == 5
