"""Pages on paper."""

from dryhouse.desk.widgets.printing import document, to_pdf


def test_a_page_becomes_a_pdf(tmp_path, qapp):
    path = tmp_path / "page.pdf"
    to_pdf(document("Sweet corn", "<h1>Sweet corn</h1>" + "<p>line</p>" * 200), path)
    data = path.read_bytes()
    assert data.startswith(b"%PDF")
    assert data.count(b"/Type /Page\n") >= 2
