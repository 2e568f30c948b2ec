"""What an inner layer has to tell is a value there, and a sentence here."""

import ast
import re
from functools import cache
from pathlib import Path
from string import Formatter

import dryhouse
from dryhouse.science.messages import MessageKind
from dryhouse.words.message_lines import LINES
from tests.rows import every_row

PACKAGE = Path(dryhouse.__file__).parent
INNER = sorted(p for layer in ("science", "journal", "plots") for p in (PACKAGE / layer).rglob("*.py"))


def test_every_kind_of_message_has_its_line_and_no_line_is_left_over():
    assert set(LINES) == set(MessageKind)


def slots(line: str) -> list[tuple[str, str]]:
    """The slots of a line, and how each is to be said."""
    return [(slot, spec or "") for _, slot, spec, _ in Formatter().parse(line) if slot is not None]


@every_row("kind", MessageKind, ids=str)
def test_every_line_asks_only_for_what_a_slot_can_say(kind):
    for slot, spec in slots(LINES[kind]):
        assert slot.isidentifier()
        assert (
            spec in ("", "bare", "own", "both", "exactly", "noun", "example", "kinds")
            or spec.count("|") == 1
            or spec.isdigit()
        )


@cache
def made_messages() -> list[tuple[str, str, set[str]]]:
    """Every `message(Kind.…)` in the package: where, of which kind, with which terms."""
    found = []
    for path in sorted(PACKAGE.rglob("*.py")):
        text = path.read_text(encoding="utf-8")
        if not re.search(r"\b(message|_refused|_and_stood)\(", text):
            continue
        for node in ast.walk(ast.parse(text)):
            called = node.func.id if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) else ""
            if called not in ("message", "_refused", "_and_stood") or any(k.arg is None for k in node.keywords):
                continue
            terms = {"typed", "wanted"} if called == "_refused" else {k.arg for k in node.keywords}
            terms |= {"because"} if called == "_and_stood" else set()
            kinds = [n.attr for n in ast.walk(node.args[0]) if isinstance(n, ast.Attribute)]
            found += [(f"{path.name}:{node.lineno}", k, terms) for k in kinds if k in MessageKind.__members__]
    return found


def test_enough_messages_are_looked_at():
    assert len({kind for _, kind, _ in made_messages()}) > 60


@every_row(("where", "kind", "terms"), made_messages)
def test_every_message_carries_what_its_line_asks_for(where, kind, terms):
    asked = {slot for slot, _ in slots(LINES[MessageKind[kind]])} - {"unchanged"}
    assert asked <= terms, f"{where}: {kind} lacks {asked - terms}"


def told_texts(tree: ast.Module) -> list[tuple[int, str]]:
    """Texts of four words and more, but for docstrings, keys, enumerations, our own mistakes, and curve models."""
    left_out = [n.value for n in ast.walk(tree) if isinstance(n, ast.Expr)]
    left_out += [part for n in ast.walk(tree) if _is_not_told(n) for part in ast.walk(n)]
    left_out += [key for n in ast.walk(tree) if isinstance(n, ast.Dict) for key in n.keys if key is not None]
    skipped = set(map(id, left_out))
    texts = (n for n in ast.walk(tree) if isinstance(n, ast.Constant) and isinstance(n.value, str))
    return [(n.lineno, n.value) for n in texts if id(n) not in skipped and len(WORDS.findall(n.value)) > 3]


WORDS = re.compile(r"(?<![^\s“])[A-Za-z]{2,}(?=[\s,;:.?!”]|$)")


def _is_not_told(node: ast.AST) -> bool:
    if isinstance(node, ast.Assert):
        return True
    if isinstance(node, ast.Raise) and isinstance(node.exc, ast.Call):
        return not ast.unparse(node.exc.func).endswith(("Problem", "NotKnown"))
    if isinstance(node, ast.Call):
        return ast.unparse(node.func) == "Model"
    return isinstance(node, ast.Assert) or (
        isinstance(node, ast.ClassDef) and "StrEnum" in map(ast.unparse, node.bases)
    )


NOT_TOLD = ("journal/sqlite/", "science/values.py", "science/safety/facts.py")
"""SQL; what is added to a source that was not checked; how food was heated, as it is kept."""


def named(path: Path) -> str:
    return path.relative_to(PACKAGE).as_posix()


@every_row("path", [p for p in INNER if not named(p).startswith(NOT_TOLD)], ids=named)
def test_no_inner_layer_words_what_a_person_is_told(path):
    assert told_texts(ast.parse(path.read_text(encoding="utf-8"))) == []


def test_a_sentence_that_is_raised_or_answered_is_found_and_our_own_mistake_is_left_alone():
    def texts(code: str) -> list[str]:
        return [text for _, text in told_texts(ast.parse(code))]

    assert texts('raise InputProblem(f"The {what} lies between here and there.")')
    assert texts('said = "The load has hardly moved."')
    assert texts('raise ValueError("both are lists of one length")') == []
