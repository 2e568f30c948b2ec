"""Foods made into whole loads, each set as late as its dryer, the hours kept and its conditioning allow."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from dryhouse.science.drying_hours import Grid
from dryhouse.science.drying_runs import CRUMB, Asked, Machine, PlannedLoad, tray_count

_DAY = 48


@dataclass(frozen=True, slots=True)
class Setting:
    """The dryers and the half-hours: everything a load is set into."""

    grid: Grid
    machines: tuple[Machine, ...]
    now: int
    ready: int
    """The half-hour by which everything is dried and conditioned."""
    last: int
    """The half-hour by which the last dryer is done."""
    taken: Mapping[int, tuple[tuple[int, int], ...]]
    """By dryer: half-hours in which it is busy with something else."""
    turnaround: int
    """Half-hours between two runs of one dryer."""
    apart: int
    """By how many half-hours foods in one run may differ in what they take."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A run as half-hours: its dryer, its loads, its start and end, and how late its food has to be."""

    machine: Machine
    loads: tuple[PlannedLoad, ...]
    start: int
    end: int
    latest: int
    """The latest start it was given, before it was moved forward."""
    slots: int
    late: int
    earliest: int
    temperature_c: float | None
    early: bool = False

    @property
    def spare(self) -> int:
        """Trays that are still empty."""
        return self.machine.trays - sum(load.trays for load in self.loads)


@dataclass
class Filling:
    """The runs set so far, what each dryer is busy with, and the dried grams of each food still to be set."""

    setting: Setting
    asked: tuple[Asked, ...]
    tight: bool
    runs: list[Placed] = field(default_factory=list)
    rest: dict[str, float] = field(default_factory=dict)
    _busy: dict[int, NDArray[np.int64]] = field(default_factory=dict)

    def earliest(self, a: Asked) -> int:
        """The half-hour a food may start at the soonest."""
        return 0 if a.earliest is None else max(0, self.setting.grid.at_or_after(a.earliest))

    def slots(self, a: Asked) -> int:
        """The half-hours a food takes at most."""
        assert a.recipe.hours is not None
        return self.setting.grid.slots(a.recipe.hours.high)

    def deadline(self, a: Asked) -> int:
        """The half-hour by which a food has to be off the dryer."""
        return min(self.setting.ready - _DAY * a.recipe.conditioning_days, self.setting.last)

    def prepared(self, a: Asked) -> float:
        """Prepared grams of what is still to be set."""
        assert a.batch.prepared is not None
        return a.batch.prepared.value * self.rest[a.batch.food] / a.batch.dried

    def needs(self, a: Asked, machine: Machine) -> int:
        """Trays of this dryer for what is still to be set."""
        return tray_count(self.prepared(a), a.recipe.tray_grams[machine.id])

    # --- one run ---------------------------------------------------------------------------------------------

    def latest(self, machine: Machine, a: Asked, earliest: int) -> int | None:
        """The latest half-hour at which this dryer may start this food; None where there is none."""
        ends = self.setting.grid.ends(self.slots(a))
        fits = (ends >= 0) & (ends <= self.deadline(a))
        fits[: max(self.setting.now, earliest)] = False
        starts = np.flatnonzero(fits)
        if not len(starts):
            return None
        busy = self.busy(machine)
        until = np.minimum(ends[starts] + self.setting.turnaround, len(busy) - 1)
        free = starts[busy[until] == busy[starts]]
        return int(free[-1]) if len(free) else None

    def busy(self, machine: Machine) -> NDArray[np.int64]:
        """How many half-hours before each this dryer is taken, the turnaround after each run with them."""
        if machine.id not in self._busy:
            taken = np.zeros(self.setting.grid.count + self.setting.turnaround, dtype=np.int64)
            mine = [(run.start, run.end) for run in self.runs if run.machine.id == machine.id]
            for begin, end in (*mine, *self.setting.taken.get(machine.id, ())):
                taken[max(0, begin) : max(0, end + self.setting.turnaround)] = 1
            self._busy[machine.id] = np.concatenate(([0], np.cumsum(taken)))
        return self._busy[machine.id]

    def open(self, a: Asked) -> Placed | None:
        """A run of its own for a food, on the dryer that suits it; None where none is free in time."""
        soonest = self.earliest(a)
        for earliest in dict.fromkeys((soonest, 0)):
            fitting: list[tuple[tuple[float, ...], Machine, int]] = []
            for n, machine in enumerate(self.setting.machines):
                start = self.latest(machine, a, earliest) if machine.id in a.recipe.tray_grams else None
                if start is not None:
                    fitting.append(((*self._suits(a, machine, start), -n), machine, start))
            if fitting:
                _, machine, start = max(fitting, key=lambda f: f[0])
                end = int(self.setting.grid.ends(self.slots(a))[start])
                load = self._load(a, machine, machine.trays)
                heat = a.recipe.temperature_c
                lasts, early = self.slots(a), earliest < soonest
                return Placed(machine, (load,), start, end, start, lasts, a.late, earliest, heat, early)
        return None

    def _suits(self, a: Asked, machine: Machine, start: int) -> tuple[float, ...]:
        """How well a dryer suits: it takes all of the food and is no bigger than this and what may share it must
        have; where time is short, or the food has to be fresh, the one that can start latest."""
        if self.tight or a.late:
            return (start, machine.trays)
        whole = self.needs(a, machine) <= machine.trays
        alike = [b for b in self.asked if self._left(b) and self._alike(b, a) and machine.id in b.recipe.tray_grams]
        roomy = sum(self.needs(b, machine) for b in alike) <= machine.trays
        return (float(whole), float(roomy), -machine.trays if roomy else machine.trays, start)

    def joined(self, run: Placed) -> Placed:
        """The run with its empty trays filled by foods that may share it, those that fit whole first; food that
        no dryer takes whole may be split here too."""
        biggest = max(machine.trays for machine in self.setting.machines)
        first = next(b for b in self.asked if b.batch.food == run.loads[0].food)
        company = [a for a in self.asked if a is not first and self._alike(a, first) and a.late <= run.late]
        while run.spare:
            found = [(self.needs(a, run.machine), n, a) for n, a in enumerate(company) if self._may_join(a, run)]
            fitting = [f for f in found if f[0] <= run.spare or self.tight or f[0] > biggest]
            if not fitting:
                break
            _, _, a = max(fitting, key=lambda f: (f[0] <= run.spare, f[0], -f[1]))
            load = self._load(a, run.machine, run.spare)
            self._set(a, load)
            run = replace(run, loads=(*run.loads, load), earliest=max(run.earliest, self.earliest(a)))
        return run

    def _may_join(self, a: Asked, run: Placed) -> bool:
        if not self._left(a):
            return False
        there = run.machine.id in a.recipe.tray_grams and self.earliest(a) <= run.start
        takes_alike = run.slots - self.setting.apart <= self.slots(a) <= run.slots
        return there and takes_alike and run.end <= self.deadline(a)

    def _left(self, a: Asked) -> bool:
        return self.rest.get(a.batch.food, 0.0) > CRUMB * a.batch.dried

    def _alike(self, a: Asked, other: Asked) -> bool:
        """Whether a food may share a run with another; it may with itself."""
        return a is other or (bool(a.recipe.company) and a.recipe.company == other.recipe.company)

    def _load(self, a: Asked, machine: Machine, trays: int) -> PlannedLoad:
        """As much of what is left of a food as so many trays take."""
        assert a.recipe.hours is not None
        each, prepared, dried = a.recipe.tray_grams[machine.id], self.prepared(a), self.rest[a.batch.food]
        share = min(1.0, trays * each / prepared)
        used = min(tray_count(prepared, each), trays)
        days = a.recipe.conditioning_days
        return PlannedLoad(a.batch.food, used, prepared * share, dried * share, a.recipe.hours, days)

    def _set(self, a: Asked, load: PlannedLoad) -> None:
        self.rest[a.batch.food] -= load.dried

    # --- all of them -----------------------------------------------------------------------------------------

    def fill(self) -> Filling:
        """Set every food, those first that have to be dried last."""
        self.rest = {a.batch.food: a.batch.dried for a in self.asked if can_be_set(a)}
        for a in self.asked:
            while self._left(a):
                run = self.open(a)
                if run is None:
                    break
                self._set(a, run.loads[0])
                run = self.joined(run)
                self.runs.append(run)
                self._busy.pop(run.machine.id, None)
        return self

    @property
    def left_over(self) -> dict[str, float]:
        """Dried grams of each food that no run takes."""
        left = {a.batch.food: self.rest.get(a.batch.food, a.batch.dried) for a in self.asked}
        return {food: grams for food, grams in left.items() if grams > 1e-6}


def can_be_set(a: Asked) -> bool:
    """Whether its yield, its hours and what a tray takes of it are known."""
    return a.batch.prepared is not None and a.recipe.hours is not None and bool(a.recipe.tray_grams)


def filled(setting: Setting, asked: Sequence[Asked]) -> Filling:
    """Whole loads where there is time for them; loads split and dryers mixed where that gets more done."""
    order = sorted(asked, key=_order)
    calm = Filling(setting, tuple(order), tight=False).fill()
    if not calm.left_over:
        return calm
    tight = Filling(setting, tuple(order), tight=True).fill()
    return min(calm, tight, key=lambda filling: sum(filling.left_over.values()))


def _order(a: Asked) -> tuple[float, float, float, float, str]:
    """What has to be dried last first; then what needs no conditioning, keeps shortest and takes longest."""
    earliest = 0.0 if a.earliest is None else a.earliest.timestamp()
    longest = a.recipe.hours.high if a.recipe.hours else 0.0
    return (-a.late, a.recipe.conditioning_days, -earliest, -longest, a.batch.food)
