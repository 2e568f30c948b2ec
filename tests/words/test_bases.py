"""What a figure rests on, in a line."""

from dryhouse.science.display import METRIC, Style
from dryhouse.science.messages import MessageKind, message
from dryhouse.science.values import Basis
from dryhouse.words.bases import bases_json, basis_text
from tests.rows import every_row


@every_row(
    ("basis", "text"),
    [
        (Basis("handbook", "a table"), "handbook: a table"),
        (Basis("own", n=4), "your 4 records"),
        (Basis("own", "drying hours", 3), "your 3 records (drying hours)"),
        (Basis("own", n=4, said=message(MessageKind.OWN_RATIOS)), "your 4 records (dried ÷ prepared)"),
        (Basis("entered"), "entered"),
        (
            Basis("assumption", said=message(MessageKind.OTHER_FORM, each=0.5)),
            "assumption: a batch of another form counts 0.5",
        ),
    ],
)
def test_each_kind_of_basis_has_its_line(basis, text):
    assert basis_text(basis, Style()) == text


def test_an_assumption_is_written_in_her_notation_and_handed_on_with_its_kind():
    half = Basis("assumption", said=message(MessageKind.OTHER_FORM, each=0.5))
    assert basis_text(half, Style(METRIC, decimal_comma=True)).endswith("counts 0,5")
    assert bases_json([half], Style()) == [
        {"kind": "assumption", "n": None, "source": "a batch of another form counts 0.5"}
    ]
