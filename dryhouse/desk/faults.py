"""What happens when we made a mistake: the act is given up whole, and the person is told plainly."""

from __future__ import annotations

import sys
import threading
from types import TracebackType
from typing import TYPE_CHECKING

from dryhouse.science.errors import InputProblem, WorldProblem

if TYPE_CHECKING:
    from dryhouse.desk.window import DeskWindow

SENTENCE = (
    "Something went wrong in the program. Nothing was saved half-way; what was saved before is still there. "
    "You can go on, or copy the details for whoever looks after the program."
)


def watch(window: DeskWindow) -> None:
    """Show what nobody caught as a message of the window, and write it to the terminal and the log file too."""

    def caught(kind: type[BaseException], problem: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            window.close()
            return
        session = window.session
        if isinstance(problem, (InputProblem, WorldProblem)) and session is not None:
            session.meet(problem)
            return
        from dryhouse.desk import fault_log

        details_text = fault_log.details(kind, problem, trace)
        sys.__excepthook__(kind, problem, trace)
        fault_log.write(details_text)
        if session is not None:
            session.say(SENTENCE, "fault", details=details_text)
            if window.doors is not None:
                window.doors.rescue.look_for_the_cause()

    def caught_beside(fault: threading.ExceptHookArgs) -> None:
        """A thread has no window to speak with: the log has it."""
        from dryhouse.desk import fault_log

        if fault.exc_value is not None:
            fault_log.write(fault_log.details(fault.exc_type, fault.exc_value, fault.exc_traceback))
        threading.__excepthook__(fault)

    sys.excepthook = caught
    threading.excepthook = caught_beside
