"""Reading ahead leaves nothing slow for the first keystroke."""

import sys

from dryhouse.desk.places.batches.preload import preload_journal
from dryhouse.science.quantities import registry


def test_the_unit_registry_and_the_index_of_foods_are_there_when_it_is_done(session):
    registry.cache_clear()
    preload_journal(session).join(30)
    assert registry.cache_info().currsize == 1
    assert vars(session.kitchen.handbook).get("_with_own"), "the index over her own foods and the handbook's"
    assert "dryhouse.kitchen.cards.batch_card" in sys.modules
