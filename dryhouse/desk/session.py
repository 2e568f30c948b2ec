"""What every place shares: the kitchen, how the person reads numbers, undo, and the door for messages."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import TYPE_CHECKING, Concatenate, ParamSpec, TypeVar

from PySide6.QtCore import QObject, Signal

from dryhouse.desk.drafts import Drafts
from dryhouse.desk.messages import Kind, Message, Messages
from dryhouse.desk.pauses import InAPause
from dryhouse.kitchen.ports import Done, R, ReadByInstruments, Record, WrittenElsewhere
from dryhouse.kitchen.records import Preference
from dryhouse.kitchen.records.problems import called
from dryhouse.kitchen.settings import style
from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.science.messages import MessageKind
from dryhouse.science.values import Caution, Figure
from dryhouse.words.messages import problem_sentence

if TYPE_CHECKING:
    from PySide6.QtCore import QSettings

    from dryhouse.desk.instruments import Instruments
    from dryhouse.desk.theme import Theme
    from dryhouse.kitchen.kitchen import Kitchen

P = ParamSpec("P")
Answer = TypeVar("Answer")

_AFTER_A_KEY_S = 0.5
"""So long nobody types before what instruments read is shown."""
_FILE_FAILED = frozenset(
    {MessageKind.DAMAGED, MessageKind.DAMAGED_ALONE, MessageKind.FOREIGN, MessageKind.REPLACED}
)


def file_failed(problem: InputProblem | WorldProblem) -> bool:
    """Whether it is the journal's file itself that failed, and not one act on it."""
    return not isinstance(problem.said, str) and problem.said.kind in _FILE_FAILED


class Session(QObject):
    """One sitting at the desk with one journal."""

    changed = Signal(object)
    """A `Done`: an act was done, undone or redone."""
    style_changed = Signal()
    undo_changed = Signal()
    open_asked = Signal(str, str, object)
    """Place id, kind of record, number or slug."""
    workings_asked = Signal(str, object)
    """Title and `Figure` whose workings are asked for."""
    figure_replaced = Signal(object, str, object)
    """The former `Figure` of a view, the title and the figure it shows now; None where it shows none any more."""
    caution_asked = Signal(object)
    """The `Caution` whose source and reason are asked for."""
    file_failed = Signal(str)
    """The journal's file is damaged, or another one stands in its place: a sentence that says so."""

    def __init__(self, kitchen: Kitchen, theme: Theme) -> None:
        super().__init__()
        self.kitchen = kitchen
        self.theme = theme
        self.messages = Messages(self)
        self.drafts = Drafts(kitchen.journal.path, self)
        """What is typed and not saved yet."""
        self.problem: InputProblem | None = None
        """What was wrong with the last act, where it was refused; its `field` names the entry."""
        self.instruments: Instruments | None = None
        self._style = style(kitchen)
        self._done: list[Done[Record]] = []
        self._undone: list[Done[Record]] = []
        self._version = kitchen.journal.version()
        self._told: set[Record] = set()
        """Records of which she was told that they are no longer as her form shows them."""

    @property
    def style(self) -> Style:
        """How this person reads numbers."""
        return self._style

    def set_style(self, style: Style) -> None:
        """Show every number another way."""
        if style != self._style:
            self._style = style
            self.style_changed.emit()

    # --- acts ---------------------------------------------------------------------------------------

    def act(
        self, act: Callable[Concatenate[Kitchen, P], Done[R]], *args: P.args, **named: P.kwargs
    ) -> Done[R] | None:
        """Run `act(kitchen, …)`; None where it was refused, and then nothing has changed.

        A refusal is shown, and kept in `problem` so that a form can mark the entry it belongs to.
        """
        done = self.attempt(lambda: self.kitchen.do(act, *args, **named))
        if done is not None and done.changes:
            self._done.append(done)
            self._undone.clear()
            self._announce(done, done.what)
        return done

    def act_on(
        self,
        shown: Iterable[Record],
        act: Callable[Concatenate[Kitchen, P], Done[R]],
        *args: P.args,
        **named: P.kwargs,
    ) -> Done[R] | None:
        """The same, for a form that was filled from these records: refused where one of them is no longer as it
        was shown. She is told once; what she then saves again takes the place of the other change."""
        records = tuple(shown)

        def unless_changed(kitchen: Kitchen, /, *args: P.args, **named: P.kwargs) -> Done[R]:
            for record in records:
                now = kitchen.journal.get(type(record), record.id)
                if now is not None and now != record and now not in self._told:
                    self._told.add(now)
                    raise WorldProblem(
                        f"{called(type(record)).capitalize()} {record.id} has changed since you opened it here, "
                        f"in this window or in another one. Nothing was saved yet: save again to put yours in its "
                        f"place, or leave and open it again to see the change."
                    )
            return act(kitchen, *args, **named)

        return self.act(unless_changed, *args, **named)

    def look_elsewhere(self) -> None:
        """Let every place know where another window or program has written to the journal."""
        try:
            version = self.kitchen.journal.version()
        except WorldProblem as problem:
            if file_failed(problem):
                self.file_failed.emit(problem_sentence(problem, self.style))
            return
        if version != self._version:
            self._version = version
            self.set_style(style(self.kitchen))
            self.changed.emit(WrittenElsewhere(""))

    def attempt(self, call: Callable[P, Answer], *args: P.args, **named: P.kwargs) -> Answer | None:
        """`call(…)`, with what the person typed or the world did shown as a message; then the answer is None."""
        self.problem = None
        try:
            return call(*args, **named)
        except InputProblem as problem:
            self.problem = problem
            self.meet(problem)
        except WorldProblem as problem:
            self.meet(problem)
        return None

    def told_beside(self, problem: InputProblem | None) -> None:
        """A refusal stands beside its entry: it is told there, and not in the bar as well."""
        if problem is not None and self.problem is not None and problem.said == self.problem.said:
            self.messages.clear()

    def meet(self, problem: InputProblem | WorldProblem) -> None:
        """Say what was refused or what failed; a file that failed has its own page."""
        sentence = problem_sentence(problem, self.style)
        self.say(sentence, "input" if isinstance(problem, InputProblem) else "world")
        if file_failed(problem):
            self.file_failed.emit(sentence)

    @property
    def can_undo(self) -> str:
        """What undo would take back; empty where there is nothing."""
        return self._done[-1].what if self._done else ""

    @property
    def can_redo(self) -> str:
        """What redo would do again; empty where there is nothing."""
        return self._undone[-1].what if self._undone else ""

    def undo(self) -> None:
        """Take the last act back."""
        self._step(self._done, self._undone, "Undone")

    def redo(self) -> None:
        """Do again what was last taken back."""
        self._step(self._undone, self._done, "Redone")

    def _step(self, source: list[Done[Record]], goal: list[Done[Record]], words: str) -> None:
        if not source:
            self.say("Nothing to undo." if goal is self._undone else "Nothing to redo.")
            return
        back = source[-1].undone()
        try:
            back = replace(back, changes=tuple(self.kitchen.write(back.changes)))
        except (InputProblem, WorldProblem) as problem:
            self.meet(problem)
            return
        source.pop()
        goal.append(back)
        self._announce(back, f"{words}: {back.what}")

    def _announce(self, done: Done[Record], words: str) -> None:
        self.say(words, "done", undo=bool(self._done) and done is self._done[-1])
        if Preference in done.kinds:
            self.set_style(style(self.kitchen))
        self.changed.emit(done)
        self.undo_changed.emit()

    def start_instruments(self, settings: QSettings) -> None:
        """Follow the instruments that are followed on this machine. What they read is no act to be undone."""
        from dryhouse.desk.instruments import Instruments

        # To fit and draw a curve anew takes longer than a key may wait.
        later = InAPause[Done[Record]](
            self, lambda read: self.changed.emit(ReadByInstruments.of(read)), _AFTER_A_KEY_S
        )
        self.instruments = Instruments(self.kitchen, settings, self.say, later.want, self)
        self.instruments.start()

    # --- doors --------------------------------------------------------------------------------------

    def say(self, text: str, kind: Kind = "note", *, undo: bool = False, details: str = "") -> None:
        """A sentence to the person."""
        self.messages.post(Message(kind, text, undo, details))

    def open(self, place: str, kind: str = "", id: int | str = 0) -> None:
        """Go to a place and, where a kind is named, to that record in it."""
        self.open_asked.emit(place, kind, id)

    def show_workings(self, title: str, figure: Figure) -> None:
        """Open the side sheet with the arithmetic behind a figure."""
        self.workings_asked.emit(title, figure)

    def show_caution(self, caution: Caution) -> None:
        """Open the side sheet with a caution's reason and source."""
        self.caution_asked.emit(caution)
