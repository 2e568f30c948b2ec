"""Words from memory look as matplotlib's own do, and are where and as large as they were."""

from __future__ import annotations

import numpy as np
import pytest
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

from dryhouse.plots.words_canvas import WordsCanvas


def drawn(canvas, text: str, dpi: float = 100, **look) -> tuple[np.ndarray, object]:
    figure = Figure(figsize=(4, 1), dpi=dpi)
    canvas(figure)
    words = figure.text(0.1, 0.5, text, **look)
    figure.canvas.draw()
    return np.asarray(figure.canvas.buffer_rgba())[..., :3].astype(float), words.get_window_extent()


@pytest.mark.parametrize(
    ("text", "look"),
    [
        ("Ground turkey, cooked · jar", {}),
        ("past  keep-by ", {"color": "#8A3A12", "weight": "bold", "fontsize": 16}),
        ("upright", {"rotation": 90}),
        ("two\nlines", {}),
    ],
)
def test_words_from_memory_are_the_same_words_in_the_same_place(text, look):
    for dpi in (100, 200):
        (own, own_box), (ours, box) = (
            drawn(FigureCanvasAgg, text, dpi, **look),
            drawn(WordsCanvas, text, dpi, **look),
        )
        assert np.allclose(box.extents, own_box.extents, atol=1.0)
        ink, own_ink = 255 - ours, 255 - own
        assert ink.sum() == pytest.approx(own_ink.sum(), rel=0.02)
        for axis in (0, 1):
            shares = (pixels.sum(axis=(axis, 2)) for pixels in (ink, own_ink))
            middle, own_middle = (np.average(np.arange(len(share)), weights=share) for share in shares)
            assert middle == pytest.approx(own_middle, abs=0.6)


def test_a_word_is_drawn_in_each_colour_it_is_asked_for():
    blue, red = (drawn(WordsCanvas, "corn", color=colour)[0] for colour in ("#0000FF", "#FF0000"))
    assert blue.min(axis=(0, 1)).tolist() == pytest.approx([0, 0, 255], abs=12)
    assert red.min(axis=(0, 1)).tolist() == pytest.approx([255, 0, 0], abs=12)


def test_a_saved_drawing_holds_the_words_too(tmp_path):
    figure = Figure(figsize=(4, 1))
    WordsCanvas(figure)
    figure.text(0.1, 0.5, "corn")
    for ending, begins in (("png", b"\x89PNG"), ("svg", b"<?xml"), ("pdf", b"%PDF")):
        figure.savefig(tmp_path / f"words.{ending}")
        assert (tmp_path / f"words.{ending}").read_bytes().startswith(begins)
