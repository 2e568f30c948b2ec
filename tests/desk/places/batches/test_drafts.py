"""New batches that were begun and left."""

from dryhouse.desk.places.batches.drafts import MOST, Drafts


def test_the_newest_is_offered_first_and_the_others_wait_behind_it(session) -> None:
    drafts = Drafts(session)
    for line in ("corn", "apple"):
        drafts.put(line)
    assert drafts.newest == "apple"
    assert drafts.take() == "apple"
    assert drafts.newest == "corn"


def test_what_is_saved_is_there_in_the_next_sitting_with_what_still_stood_in_the_form(session) -> None:
    drafts = Drafts(session)
    drafts.put("corn")
    drafts.save("apple")
    assert drafts.newest == "corn"
    again = Drafts(session)
    assert [again.take(), again.take(), again.take()] == ["apple", "corn", ""]


def test_a_blank_form_is_no_draft_and_only_the_last_few_are_kept(session) -> None:
    drafts = Drafts(session)
    for line in ("", *map(str, range(MOST + 3))):
        drafts.put(line)
    drafts.save()
    again = Drafts(session)
    assert [again.take() for _ in range(MOST + 1)] == [*map(str, range(MOST + 2, 2, -1)), ""]
