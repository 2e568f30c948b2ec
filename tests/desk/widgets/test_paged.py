"""Pages on paper: what stays together, what breaks, and what is said again."""

from dataclasses import replace

import pytest
from PySide6.QtGui import QPageSize, QPdfWriter

from dryhouse.desk.widgets.paged import A4, LETTER, Layout, Section, Table, print_sections, write_sections

LINES = [(f"food {n}", f"{n} oz") for n in range(150)]
TABLE = Table(("What", "How much"), LINES, (60, 40), "<h2>Produce</h2>")


@pytest.fixture(params=[LETTER, A4], ids=["letter", "a4"])
def paper(request, qapp, tmp_path):
    writer = QPdfWriter(str(tmp_path / "pages.pdf"))
    writer.setResolution(150)
    writer.setPageSize(QPageSize(request.param))
    return writer


def texts(layout):
    return [[made.toPlainText() for _, made in page.pieces] for page in layout.pages]


def test_a_table_breaks_between_its_lines_and_says_its_head_again(paper):
    layout = Layout([Section("Shopping", [TABLE])], paper)
    pages = [page[0] for page in texts(layout)]
    assert len(pages) > 2
    assert all("How much" in page for page in pages)
    assert ["Produce" in page for page in pages] == [True] + [False] * (len(pages) - 1)
    said = "\n".join(pages)
    assert [said.count(f"food {n}\n") for n in range(150)] == [1] * 150
    assert all(made.size().height() <= layout._high for page in layout.pages for _, made in page.pieces)


def test_a_heading_never_stands_alone_at_the_foot_of_a_page(paper):
    """Paragraphs fill the first page to within a line; a heading with its table, or its text, then turns it."""
    for filled in range(30, 60):
        text = "<p>" + "<br>".join("line" for _ in range(filled)) + "</p>"
        layout = Layout([Section("x", [text, replace(TABLE, rows=LINES[:12])])], paper)
        for page in texts(layout):
            ends = [line for line in page[-1].splitlines() if line]
            assert ends[-1] not in ("Produce", "What", "How much")


def test_what_fits_on_one_page_is_not_cut_and_no_page_is_empty(paper):
    block = "<h2>Dinner</h2><p>" + "<br>".join(f"part {n}" for n in range(14)) + "</p>"
    layout = Layout([Section("Packing", [block] * 12)], paper)
    pages = texts(layout)
    assert 1 < len(pages) < 12
    assert all(page for page in pages)
    assert all(piece.count("part") == 14 for page in pages for piece in page)
    for page in layout.pages:
        ends = [top + made.size().height() for top, made in page.pieces]
        assert max(ends) <= layout._high
        assert all(top >= end for (top, _), end in zip(page.pieces[1:], ends, strict=False))


def test_a_line_longer_than_a_page_is_still_there(paper):
    long = [("word " * 6000, "1 oz"), ("next", "2 oz")]
    layout = Layout([Section("x", ["<p>before</p>", Table(("", ""), long, (80, 20))])], paper)
    assert "next" in texts(layout)[-1][-1]


def test_each_section_begins_a_page_and_painted_ones_bring_their_own(paper):
    painted = []
    sections = [
        Section("one", ["<p>a</p>"]),
        Section("two", ["<p>b</p>"]),
        Section("labels", painted=lambda device: [painted.append, painted.append]),
    ]
    assert print_sections(sections, paper, "lakes") == 4
    assert len(painted) == 2


def test_the_file_is_a_pdf_of_the_size_that_was_asked_for(qapp, tmp_path):
    file = tmp_path / "trip.pdf"
    assert write_sections([Section("Menu", ["<p>a</p>"])], file, "Lake circuit", LETTER) == 1
    assert file.read_bytes().startswith(b"%PDF")
    assert b"612" in file.read_bytes()
    with pytest.raises(OSError, match="No such file"):
        write_sections([], tmp_path / "none" / "trip.pdf", "x", A4)
