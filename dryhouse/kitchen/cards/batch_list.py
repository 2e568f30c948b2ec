"""The list of batches as the command line answers it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any

from dryhouse.handbook.tables import Food
from dryhouse.kitchen.batches.dryness import felt, judged, learned
from dryhouse.kitchen.batches.loads import load_for, loaded_grams, target_for
from dryhouse.kitchen.cautions.cautions import cautions_for, facts_of_batch, facts_of_food
from dryhouse.kitchen.cautions.forbidden import verdict_words
from dryhouse.kitchen.dryer.runs import run_of
from dryhouse.kitchen.foods.catalog import food as find_food
from dryhouse.kitchen.kitchen import Kitchen
from dryhouse.kitchen.ports import BatchQuery, BatchRow
from dryhouse.kitchen.records import BatchPart
from dryhouse.kitchen.records.batches import DRYING
from dryhouse.kitchen.settings import style
from dryhouse.science.display import Style, duration
from dryhouse.science.dryness import Verdict
from dryhouse.science.errors import InputProblem
from dryhouse.science.moisture import moisture_now
from dryhouse.science.safety import BatchFacts, FoodFacts
from dryhouse.science.statuses import Status
from dryhouse.science.values import Caution
from dryhouse.words.figures import moisture_json
from dryhouse.words.names import called

PAGE = 500


def batch_items(kitchen: Kitchen, query: BatchQuery, *, newest: int = 0) -> list[dict[str, Any]]:
    """A dictionary for each batch asked for, its cautions among them: masses in g, also the water it lost,
    moisture in % wet basis, times in UTC.

    What is not known is None, and so is the verdict of what must not be eaten. `newest` 0 means all.
    """
    ids = list(kitchen.journal.batch_ids(query))
    ids = ids[:newest] if newest else ids
    items: list[dict[str, Any]] = []
    foods: dict[str, Food | None] = {}
    said: dict[BatchFacts, tuple[Caution, ...]] = {}
    notation = style(kitchen)

    def facts_of(slug: str) -> FoodFacts:
        if slug not in foods:
            foods[slug] = _food(kitchen, slug)
        known = foods[slug]
        return FoodFacts(slug) if known is None else facts_of_food(known)

    for start in range(0, len(ids), PAGE):
        page = tuple(ids[start : start + PAGE])
        parts: dict[int, list[BatchPart]] = {}
        for part in kitchen.journal.where(BatchPart, batch=page):
            parts.setdefault(part.batch, []).append(part)
        for row in kitchen.journal.batch_rows(page):
            inside = sorted(parts.get(row.batch.id, []), key=lambda p: p.position)
            facts = facts_of_batch(row.batch, inside, facts_of)
            if facts not in said:
                said[facts] = cautions_for(facts)
            cautions = said[facts]
            item = _item(kitchen, row, foods[row.batch.food], inside, notation)
            if any(c.forbids_eating for c in cautions):
                item |= dict.fromkeys(("verdict", "sentence", "dry_enough_probability", "water"))
                item["do_not_eat"] = True
            items.append({**item, "cautions": cautions})
    return items


def _food(kitchen: Kitchen, slug: str) -> Food | None:
    try:
        return find_food(kitchen, slug)
    except InputProblem:
        return None


def _item(
    kitchen: Kitchen, row: BatchRow, food: Food | None, parts: Sequence[BatchPart], notation: Style
) -> dict[str, Any]:
    batch = row.batch
    moisture = found = None
    loaded = loaded_grams(food, batch) if food else (batch.prepared_mass.si if batch.prepared_mass else None)
    if loaded is None and parts:
        loaded = sum(part.mass.si for part in parts)
    dried = batch.dried_mass.si if batch.dried_mass else None
    if food is not None and batch.state == DRYING and row.weighings:
        run = run_of(kitchen, batch.id)
        moisture, found = run.moisture, run.verdict
    elif food is not None and dried is not None:
        load, target = load_for(kitchen, batch, parts, food=food), target_for(kitchen, batch, food)
        found = judged(batch, load, target) if load and target else None
        if found is not None:
            moisture = found.now
        elif load is not None:
            moisture = moisture_now(load, dried, learned(batch), felt(batch))
    return {
        "id": batch.id,
        "food": batch.food,
        "name": called(batch, food.name if food else batch.food),
        "state": batch.state,
        "started": _moment(batch.started),
        "ended": _moment(batch.ended),
        "hours": (batch.ended - batch.started).total_seconds() / 3600 if batch.started and batch.ended else None,
        "dryer": row.dryer_name or None,
        "fresh": loaded,
        "dried": dried,
        "unit": "g",
        "yield": dried / loaded if dried is not None and loaded else None,
        "moisture": moisture_json(moisture),
        "dry_enough_probability": found.probability if isinstance(found, Verdict) else None,
        "verdict": found.name if found else None,
        "sentence": verdict_words(found, notation) if found else None,
        "weighings": row.weighings,
        "water": loaded - dried if dried is not None and loaded is not None and loaded > dried else None,
        "do_not_eat": False,
    }


def _moment(moment: datetime | None) -> str | None:
    return moment.astimezone(UTC).isoformat() if moment else None


def batch_line(kitchen: Kitchen, item: dict[str, Any], style: Style) -> str:
    """One batch in one line."""
    started = item["started"]
    when = kitchen.local(datetime.fromisoformat(started)).strftime("%Y-%m-%d %H:%M") if started else "no start"
    parts = [f"{item['id']:>5}  {when:<16}  {item['state']:<8}  {item['name']}"]
    if item["fresh"] is not None:
        weights = style.mass(item["fresh"])
        parts.append(f"{weights} → {style.mass(item['dried'])}" if item["dried"] is not None else weights)
    elif item["dried"] is not None:
        parts.append(f"{style.mass(item['dried'])} dried")
    if item["hours"] is not None:
        parts.append(duration(item["hours"] * 3600))
    if item["moisture"] is not None:
        parts.append(f"{style.percent(item['moisture']['value'], 0)} moisture")
    if item["do_not_eat"]:
        parts.append(Status.DO_NOT_EAT)
    elif item["verdict"]:
        parts.append(item["verdict"])
    return ", ".join(parts)
