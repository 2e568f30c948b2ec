"""Pages on paper."""

from PySide6.QtGui import QPdfWriter

from dryhouse.desk.widgets.printing import document


def test_a_page_becomes_a_pdf(tmp_path, qapp):
    path = tmp_path / "page.pdf"
    document("Sweet corn", "<h1>Sweet corn</h1>" + "<p>line</p>" * 200).print_(QPdfWriter(str(path)))
    data = path.read_bytes()
    assert data.startswith(b"%PDF")
    assert data.count(b"/Type /Page\n") >= 2


def test_the_preview_draws_the_page_for_the_printer(qtbot, monkeypatch):
    from PySide6.QtPrintSupport import QPrinter, QPrintPreviewDialog
    from PySide6.QtWidgets import QWidget

    from dryhouse.desk.widgets.printing import preview_print

    drawn = []

    def shown(dialog):
        printer = QPrinter()
        printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        printer.setOutputFileName("/dev/null")
        dialog.paintRequested.emit(printer)
        drawn.append(dialog.size())

    monkeypatch.setattr(QPrintPreviewDialog, "exec", shown)
    parent = QWidget()
    qtbot.addWidget(parent)
    preview_print(parent, document("Sweet corn", "<p>line</p>"))
    (size,), room = drawn, parent.screen().availableSize()
    assert size.width() > 0.8 * min(room.width(), 900)
    assert size.boundedTo(room) == size
