"""What each place says at once with the sample journal stays within a count, so that the words do not grow back."""

from PySide6.QtTest import QTest

from tests.count_words import PLACES
from tests.journeys.words_counted import count, texts, words_in

MOST = {"journal": 130, "drying": 145, "yields": 145, "shelf": 138, "meals": 195, "handbook": 198}
"""Words of each place, scrolled away or not, at most. Beforehand they were 294, 293, 540, 305, 925 and 725."""


def test_each_place_keeps_to_its_words(person, qtbot):
    said = {}
    for place, act in PLACES.items():
        person.window.go(place)
        QTest.qWait(200)
        act(person.window)
        QTest.qWait(1200)
        said[place] = count(person.window.view(place))[1]
    assert {p: n for p, n in said.items() if n > MOST[p]} == {}
    assert all(n > MOST[p] / 2 for p, n in said.items()), f"a place was not filled when it was counted: {said}"


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
