"""What a batch on record is called."""

from __future__ import annotations

from dryhouse.kitchen.foods.catalog import food_name
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.records import Batch
from dryhouse.words.names import called


def batch_name(kitchen: Kitchen, batch: Batch) -> str:
    """Its own title, else the name of its food."""
    return called(batch, food_name(kitchen, batch.food))
