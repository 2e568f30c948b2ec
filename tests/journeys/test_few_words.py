"""What each place says at once with the sample journal stays within a count, so that the words do not grow back."""

from PySide6.QtTest import QTest

from tests.count_words import PLACES
from tests.journeys.words_counted import count, texts, words_in

MOST = {"journal": 100, "drying": 138, "yields": 144, "shelf": 95, "meals": 172, "handbook": 196}
"""Words of each place, scrolled away or not, at most. In the first version: 294, 297, 540, 305, 925, 725."""
AT_SIGHT = {"journal": 100, "drying": 132, "yields": 144, "shelf": 95, "meals": 125, "handbook": 136}
"""Words in view before anything is scrolled, at most: none above 60 % of the first version's 168, 231, 372, 182,
209 and 229."""


def test_each_place_keeps_to_its_words(person, qtbot):
    said = {}
    for place, act in PLACES.items():
        person.window.go(place)
        QTest.qWait(200)
        act(person.window)
        QTest.qWait(1200)
        said[place] = count(person.window.view(place))
    assert {p: n for p, (n, _all) in said.items() if n > AT_SIGHT[p]} == {}
    assert {p: n for p, (_seen, n) in said.items() if n > MOST[p]} == {}
    assert all(n > MOST[p] / 2 for p, (_seen, n) in said.items()), f"not filled when it was counted: {said}"


def test_a_word_is_what_has_a_letter_or_a_digit_in_it():
    assert words_in("&Log a batch") == 3
    assert words_in("1½ cups · 27 %") == 3
    assert words_in("▸ — …") == 0


def test_rows_of_a_list_are_counted_once_and_stops_not_at_all(person, qtbot):
    person.window.go("shelf")
    QTest.qWait(200)
    person.window.view("shelf").show_record("lot", 44)
    QTest.qWait(400)
    said = [text for text, _seen in texts(person.window.view("shelf"))]
    assert sum(text == "Keep-by" for text in said) == 1
    assert sum(text in ("pantry", "cellar", "chest freezer") for text in said) == 1
    assert not [text for text in said if text.startswith("Stop:")]
