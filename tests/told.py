"""What a refusal says to the person, for tests that look at its words."""

import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager

import pytest

from dryhouse.science.display import Style
from dryhouse.science.errors import InputProblem, WorldProblem
from dryhouse.science.messages import Message
from dryhouse.words.messages import message_words, problem_sentence


def in_words(messages: Iterable[Message]) -> list[str]:
    """What each of the messages says."""
    return [message_words(each, Style()) for each in messages]


def worded(condition: Callable[..., Message | None]) -> Callable[..., str]:
    """A condition of the rules that answers in words; empty where it is silent."""

    def said(*facts: object) -> str:
        found = condition(*facts)
        return "" if found is None else message_words(found)

    return said


@contextmanager
def told(
    kind: type[InputProblem] | type[WorldProblem], words: str = ""
) -> Iterator[pytest.ExceptionInfo[InputProblem] | pytest.ExceptionInfo[WorldProblem]]:
    """A problem of this kind is raised, and its sentence has these words in it (a regular expression)."""
    with pytest.raises(kind) as caught:
        yield caught
    sentence = problem_sentence(caught.value)
    assert re.search(words, sentence), sentence
