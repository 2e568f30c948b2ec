"""How food is bought, in words."""

from dryhouse.words.shopping import (
    CANNED,
    COOKED,
    DRIED,
    FRESH,
    FROZEN,
    RAW,
    READY,
    about_pieces,
    caption,
    in_shop,
    note,
    on_the_shelf,
)  # fmt: skip


def test_corn_is_bought_on_the_cob_or_as_kernels():
    assert (caption("corn", FRESH), caption("corn", READY)) == ("on the cob, in the husk", "kernels")
    assert note("white-corn", READY) == "kernels"
    assert note("corn", FROZEN) == "frozen, as it goes on the trays"
    assert note("carrot", FRESH) == "as purchased"
    assert note("carrot", READY) == "cut or shelled, as it goes on the trays"
    assert caption("carrot", FRESH) == "fresh, whole"


def test_what_is_cooked_at_home_is_called_raw_or_dry_in_the_shop():
    assert in_shop("ground beef, cooked", RAW, True) == "ground beef, raw"
    assert in_shop("lentil, cooked", RAW, False) == "lentil, dry"
    assert in_shop("lentil, cooked", CANNED, False) == "lentil, canned"
    assert in_shop("white rice, cooked", COOKED, False) == "white rice, cooked"
    assert in_shop("sweet corn", FROZEN, False) == "sweet corn, frozen"
    assert in_shop("carrot", DRIED, False) == "carrot, dried"
    assert in_shop("carrot", "", False) == "carrot"


def test_pieces_are_counted_as_one_speaks():
    assert about_pieces(12, "medium") == "about 12 medium"
    assert about_pieces(3, "medium head") == "about 3 medium heads"
    assert about_pieces(1, "clove") == "about 1 clove"
    assert about_pieces(2, "large") == "about 2 large"
    assert about_pieces(1, "medium head") == "about 1 medium head"
    assert about_pieces(4, "clove") == "about 4 cloves"


def test_what_is_on_the_shelf_already_is_said():
    assert on_the_shelf("8 oz") == "8 oz more is on the shelf"
