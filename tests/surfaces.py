"""Every place, form, page and dialog of the window by its name, as the sample journal opens it.

Each is a function of the window and what opens journals in it; a dialog gives itself back. Tests measure them, and
`python tests/pictures.py FOLDER --forms` draws them.
"""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

Open = Callable[[Any, Any], Any]


def running(window: Any, at: int = 0) -> int:
    """One of the batches in the dryer."""
    return list(window.go("drying").strips)[at]


def _log(window: Any, food: str = "", fresh: str = "", dried: str = "") -> None:
    view = window.go("journal")
    view.show_list()
    view.log()
    view.form.clear()
    entries = view.form.entries
    for field, text in ((entries.food, food), (entries.fields["fresh"], fresh), (entries.fields["dried"], dried)):
        if text:
            field.setFocus()
            QTest.keyClicks(field.edit, text)
            QTest.keyClick(field.edit, Qt.Key.Key_Tab)


def _find(window: Any, text: str) -> None:
    view = window.go("journal")
    view.look_for()
    view.listing.filter.edit.setText(text)


def _list(place: str) -> Open:
    """The list of a place with its first line chosen."""

    def opened(window: Any, _opening: Any) -> None:
        view = window.go(place)
        view.show_list()
        view.listing.filter.edit.clear()

    return opened


def _file(window: Any) -> None:
    batch = running(window)
    start = window.view("drying").runs[batch].clock.started
    path = Path(window.settings.fileName()).parent / "weighings.csv"
    with path.open("w", newline="") as out:
        rows = [("hours", "grams"), (0, 2400), (1, 2210), (2, 2035), (3, 1880), (4, "a bit less"), (5, 1650)]
        csv.writer(out).writerows(rows)
    assert start is not None
    window.view("drying").take_file(path)


def _weighing(window: Any) -> None:
    drying = window.go("drying")
    drying.show_weighings(running(window))
    drying.detail.weighings.table.selectRow(0)
    drying.detail.weighings.edit()


def _page(number: int) -> Open:
    def opened(window: Any, _opening: Any) -> None:
        drying = window.go("drying")
        drying.choose(running(window))
        drying.detail.turn_to(number)

    return opened


def _day(window: Any, _opening: Any) -> None:
    """The chart of a whole day: every run of it beside the others."""
    from dryhouse.desk.places.dryer.chart import DAY

    _page(0)(window, None)
    window.view("drying").detail.chart.view.set_value(DAY)


def _reason(window: Any, _opening: Any) -> None:
    """Why a caution is said, in the sheet beside the place."""
    shelf = window.go("shelf")
    shelf.show_list()
    shelf.panel.show_lot(shelf.listing.table.current_id)
    window.show_reason()


def _refused(window: Any, _opening: Any) -> None:
    """A form with an entry that cannot be."""
    _log(window, "sweet corn", "2 lb", "3 lb")
    window.view("journal").form.save()


def _past(window: Any) -> None:
    drying = window.go("drying")
    finished = window.session.kitchen.journal
    from dryhouse.kitchen.ports import BatchQuery

    drying.show_record("batch", finished.batch_ids(BatchQuery(states=("finished",)))[0])


def _shelf_act(act: str) -> Open:
    def opened(window: Any, _opening: Any) -> None:
        shelf = window.go("shelf")
        shelf.show_list()
        shelf._left_form()
        shelf.ask(act)

    return opened


def _trip_tab(number: int) -> Open:
    def opened(window: Any, _opening: Any) -> None:
        meals = window.go("meals")
        meals.turn(1)
        meals.trips._leave_form()
        meals.trips.plan_view.tabs.setCurrentIndex(number)

    return opened


def _hours(window: Any) -> None:
    _trip_tab(1)(window, None)
    window.view("meals").trips.plan_view.calendar.change.click()


def _note(window: Any) -> None:
    _meals(window)
    window.view("meals").meals.card.open_note()


def _swap(window: Any) -> None:
    _meals(window)
    card = window.view("meals").meals.card
    card.parts.rows[1].swap.trigger()


def _meals(window: Any) -> Any:
    meals = window.go("meals")
    meals.turn(0)
    meals.meals.show_first()
    return meals


def _workings(window: Any) -> None:
    window.go("yields").type("corn 1 cup")
    window.views["yields"]._show_workings()


def _small(window: Any) -> QWidget:
    from dryhouse.desk.places.dryer.small_window import show_small

    show_small(window)
    return window.small


def _preferences(window: Any) -> QWidget:
    from dryhouse.desk.preferences import show_preferences

    return show_preferences(window, window.session)


def _guides(window: Any) -> QWidget:
    from dryhouse.desk.guides import show_guides

    return show_guides(window)


def _keys(window: Any) -> QWidget:
    from dryhouse.desk.help import show_keys

    return show_keys(window)


def _about(window: Any) -> QWidget:
    from dryhouse.desk.help import show_about

    return show_about(window)


FORMS: dict[str, Open] = {
    "log": lambda w, o: _log(w),
    "log_typed": lambda w, o: _log(w, "sweet corn", "2 lb 3 oz", "9 oz"),
    "log_meat": lambda w, o: _log(w, "ground beef", "1.5 lb", "7 oz"),
    "log_unknown_food": lambda w, o: (_log(w, "lotus root"), w.view("journal").form.save()),
    "log_mix": lambda w, o: (_log(w), w.view("journal").form.entries.mix_button.click()),
    "log_more": lambda w, o: (_log(w), w.view("journal").form.more_button.click()),
    "edit": lambda w, o: w.go("journal").edit(130),
    "dryers": lambda w, o: w.go("journal").show_dryers(),
    "journal_found": lambda w, o: _find(w, "corn 2026"),
    "journal_not_found": lambda w, o: _find(w, "zzz"),
    "start": lambda w, o: w.go("drying").start(),
    "take_off": lambda w, o: w.go("drying").open_beside(w.view("drying").take_off, running(w)),
    "instrument": lambda w, o: w.go("drying").open_beside(w.view("drying").instrument, running(w)),
    "weigh_more": lambda w, o: w.go("drying").strips[running(w)].ask_more(),
    "weighings": lambda w, o: w.go("drying").show_weighings(running(w)),
    "weighing_corrected": lambda w, o: _weighing(w),
    "weighings_file": lambda w, o: _file(w),
    "figures": _page(2),
    "curves": _page(3),
    "chart": _page(0),
    "day_chart": _day,
    "log_refused": _refused,
    "reason": _reason,
    "past_batch": lambda w, o: _past(w),
    "pack": lambda w, o: w.go("shelf").pack(),
    "shelve": lambda w, o: w.go("shelf").shelve(),
    "places": lambda w, o: w.go("shelf").show_places(),
    "labels": _shelf_act("labels"),
    "move": _shelf_act("move"),
    "draw": _shelf_act("draw"),
    "check": _shelf_act("check"),
    "open_jar": _shelf_act("open"),
    "dry_again": _shelf_act("redry"),
    "condition": _shelf_act("conditioning"),
    "throw_out": _shelf_act("throw_out"),
    "timeline": lambda w, o: w.go("shelf").toggle_timeline(),
    "own_food": lambda w, o: w.go("handbook").add_food(),
    "sources": lambda w, o: w.go("handbook").show_sources(),
    "yields": lambda w, o: w.go("yields").type("corn 1 cup"),
    "workings": lambda w, o: _workings(w),
    "yields_meat": lambda w, o: w.go("yields").type("ground beef 1 lb"),
    "yields_unknown": lambda w, o: w.go("yields").type("duck eggs 1 lb"),
    "meal": lambda w, o: w.go("meals").new(),
    "cooking_note": lambda w, o: _note(w),
    "swap": lambda w, o: _swap(w),
    "trip_days": _trip_tab(0),
    "trip_calendar": _trip_tab(1),
    "trip_hours": lambda w, o: _hours(w),
    "trip_shopping": _trip_tab(2),
    "trip_packing": _trip_tab(3),
    "trip_lots": _trip_tab(4),
    "trip_afterwards": _trip_tab(5),
    "trip": lambda w, o: (w.go("meals").turn(1), w.view("meals").trips.new()),
}
"""What stands in the window itself."""


DIALOGS: dict[str, Open] = {
    "small_window": lambda w, o: _small(w),
    "preferences": lambda w, o: _preferences(w),
    "guides": lambda w, o: _guides(w),
    "keys": lambda w, o: _keys(w),
    "about": lambda w, o: _about(w),
}
"""Windows of their own."""


def _broken(window: Any, opening: Any) -> None:
    path = Path(window.settings.fileName()).parent / "broken.dryhouse"
    path.write_bytes(b"not a journal")
    opening.open(lambda: opening.journals.file(path))


def _alone(window: Any, opening: Any) -> None:
    """Nothing else was open before, so that the window has nothing to go back to."""
    opening.close()
    _broken(window, opening)


def _differences(window: Any, opening: Any) -> None:
    from dryhouse.desk.exchange_pages import ChoicePage

    lines = [f"Batch {n}, sweet corn: dried weight 9 oz here, 9.5 oz in the file" for n in (12, 15, 31)]
    said = "12 batches and 40 weighings come in as they are; these are recorded otherwise in your journal."
    opening.show_page(ChoicePage(said, [(None, line) for line in lines], lambda _chosen: None, opening.go_back))


def _working(window: Any, opening: Any) -> None:
    from dryhouse.desk.exchange_pages import WorkPage

    page = WorkPage("Exporting everything", opening.go_back)
    page.tell("12,000 records written", 0.4)
    opening.show_page(page)


def _found(window: Any, opening: Any) -> None:
    from dryhouse.desk.widgets.found_page import FoundPage

    found = [f"Batch {n}: the food of this batch is not in the handbook and not one of your own." for n in (3, 8)]
    acts = [("&Repair what can be repaired", opening.go_back), ("Restore a backup…", opening.go_back)]
    opening.show_page(FoundPage("The check found 2 faults", "kitchen.dryhouse", found, *acts))


def _backups(window: Any, opening: Any) -> None:
    opening.back_up()
    opening.rescue.ask_restore()


PAGES: dict[str, Open] = {
    "restore": _backups,
    "check_found": _found,
    "working": _working,
    "differences": _differences,
    "file_failed": lambda w, o: o.rescue.file_failed("The disk is full: nothing was saved. Free some space."),
    "did_not_open": _alone,
}
"""What stands in place of the places; the last leaves no journal open."""
