"""How large the pieces of a food are, by what its batch says."""

from dryhouse.handbook.pot import pot
from dryhouse.kitchen.meals.pieces import pieces_of
from dryhouse.kitchen.records import Batch
from dryhouse.science.quantities import Length
from tests.rows import every_row


@every_row(
    ("batch", "size", "said"),
    [
        (None, "small", False),
        (Batch("carrot"), "small", False),
        (Batch("carrot", form="dice"), "small", True),
        (Batch("carrot", form="grated"), "fine", True),
        (Batch("apricot", form="pitted halves"), "large", True),
        (Batch("apple", form="slices", thickness=Length(9.5)), "large", True),
        (Batch("potato", form="halves", thickness=Length(6.35)), "small", True),
        (Batch("chili", form="spread thin"), "fine", True),
        (Batch("carrot", thickness=Length(pot("fine_piece").value)), "fine", True),
        (Batch("carrot", thickness=Length(pot("fine_piece").value + 0.1)), "small", True),
        (Batch("carrot", thickness=Length(pot("small_piece").value)), "small", True),
        (Batch("carrot", thickness=Length(pot("small_piece").value + 0.1)), "large", True),
    ],
)
def test_a_thickness_rules_over_the_word_for_the_cut(batch, size, said):
    found = pieces_of(batch)
    assert (found.size, found.said) == (size, said)
