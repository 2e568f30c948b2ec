"""Why a caution is said, and cautions as the command line and the exchange write them."""

from __future__ import annotations

from collections.abc import Iterable

from dryhouse.science.display import Style
from dryhouse.science.values import Caution, gravest_first
from dryhouse.words.messages import said


def reason_words(caution: Caution, style: Style | None = None) -> str:
    """Why it is said here; several reasons are joined by semicolons, and there may be none."""
    return "; ".join(dict.fromkeys(said(reason, style or Style()) for reason in caution.reasons))


def cautions_json(cautions: Iterable[Caution], style: Style | None = None) -> list[dict[str, str]]:
    """The gravest first, each once with all its reasons."""
    return [
        {
            "severity": caution.severity,
            "text": caution.text,
            "source": caution.source,
            "rule": caution.rule,
            "reason": reason_words(caution, style),
            "moment": caution.moment,
        }
        for caution in gravest_first(cautions)
    ]
