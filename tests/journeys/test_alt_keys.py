"""Letters with Alt go with the batch in focus; that none means two things is seen in `test_all_surfaces`."""


def test_the_letters_go_with_the_batch_in_focus(person):
    drying = person.window.go("drying")
    first, second = (drying.strips[id] for id in list(drying.strips)[:2])
    assert "&" in first.weigh_button.text()
    assert "&" not in second.weigh_button.text()
    second.reading.setFocus()
    drying.choose(second.run.batch.id)
    assert "&" in second.weigh_button.text()
    assert "&" not in first.weigh_button.text()
