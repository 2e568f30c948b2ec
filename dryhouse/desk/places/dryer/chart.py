"""The chart of one batch, how it is read, what it is compared with, and the curves that were fitted."""

from __future__ import annotations

import math
from datetime import datetime

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QCheckBox, QMenu, QTableWidget, QTableWidgetItem, QWidget

from dryhouse.desk.measures import hold
from dryhouse.desk.places.dryer.live import LivePlotPane, draw_days, draw_rates, draw_runs
from dryhouse.desk.places.dryer.pictures import picture_of
from dryhouse.desk.session import Session
from dryhouse.desk.widgets.basics import button, column, row, scrolling, text_label
from dryhouse.desk.widgets.fields import ChoiceField
from dryhouse.desk.widgets.figure_view import FigureView
from dryhouse.desk.widgets.item_table import dress
from dryhouse.desk.widgets.wrapping import Tiles
from dryhouse.kitchen.dryer.run_words import finish_words
from dryhouse.kitchen.dryer.runs import DryingRun, run_of
from dryhouse.kitchen.ports import BatchQuery, BatchRow
from dryhouse.plots.curve_picture import DRY, MASS, RATIO, WET, CurvePicture, RunPicture, table
from dryhouse.science.curves.rate import periods
from dryhouse.science.display import METRIC
from dryhouse.science.statuses import FigureId
from dryhouse.words.captions import caption
from dryhouse.words.curves import curve_lines
from dryhouse.words.dates import day_words
from dryhouse.words.messages import message_words

RATE, DAY = "drying rate", "the day"
VIEWS = ((WET, "moisture"), (MASS, "weight"), (DAY, "the whole day"))
MODEL_VIEWS = ((WET, "wet basis"), (DRY, "dry basis"), (RATIO, "moisture ratio"), (MASS, "weight"), (RATE, RATE))
"""How a run is read by one who asks for its curves."""
LAST = 3
"""So many of the newest runs of the food are laid beside this one at once."""
_WIDE, _HIGH, _DAY_HIGH = 8.0, 2.4, 3.8
"""Inches that a chart, and the four parts of a day, are read in at least."""
_RESIDUALS = "How far each weighing lies from the curve"
_AS_MODELS_COUNT = (FigureId.MOISTURE_DRY, FigureId.MOISTURE_RATIO)
_OFFERED = 12
"""So many other batches of the food are offered for comparing."""


class ChartPane(QWidget):
    """Shows a run; remembers how the person likes to read it while the window is open. Words of the models stand
    only where it is asked for them: with `models`."""

    def __init__(self, session: Session, *, models: bool = False) -> None:
        super().__init__()
        self.session, self.models = session, models
        self.run: DryingRun | None = None
        self.compared: dict[int, RunPicture] = {}
        self.view = ChoiceField(session, "Show", MODEL_VIEWS if models else VIEWS)
        self.time = ChoiceField(session, "Time axis", (("hours", "hours"), ("clock", "time of day")))
        self.residuals = QCheckBox("Residuals")
        self.compare = button("Com&pare", lambda: None, name="Compare with other batches of this food")
        self.menu = QMenu(self.compare)
        self.menu.aboutToShow.connect(self._offer)
        self.compare.setMenu(self.menu)
        if not models:  # shown before it has a place, it would be a window
            self.residuals.hide()
        self.plot = LivePlotPane(session, "Curves of the models" if models else "Drying curve")
        inside = column(self, space=6)
        choices = row(self.view, self.time, self.residuals, 1, self.compare, space=12)
        for widget in (self.residuals, self.compare):
            choices.setAlignment(widget, Qt.AlignmentFlag.AlignTop)
        inside.addLayout(choices)
        inside.addWidget(self.plot, 1)
        for choice in (self.view, self.time):
            choice.label.hide()
        self._grey(WET)
        for changed in (self.view.changed, self.time.changed, self.residuals.toggled):
            changed.connect(lambda *_: self.draw())
        session.style_changed.connect(self.draw)

    def show_run(self, run: DryingRun | None) -> None:
        """Chart another run, or the same one weighed again."""
        if run is None or self.run is None or run.batch.id != self.run.batch.id:
            self.compared.clear()
        self.run = run
        self.draw()

    def picture(self) -> CurvePicture | None:
        """What the chart shows now."""
        if self.run is None:
            return None
        named = self._name(self.run.batch.id, self.run.batch.started) if self.compared else ""
        mine = picture_of(self.session.kitchen, self.run, self.session.style, name=named)
        axis = self.view.value()
        unit = "g" if self.session.style.system == METRIC else "oz"
        return CurvePicture(
            (mine, *self.compared.values()),
            axis=axis if axis not in (RATE, DAY) else DRY,
            by_clock=self.time.value() == "clock" and not self.compared,
            residuals=self.residuals.isChecked() and not self.compared,
            unit=unit,
            models=self.models,
        )

    def draw(self) -> None:
        """Draw what is chosen."""
        picture = self.picture()
        if picture is None or self.run is None:
            self.plot.clear()
            return
        view = self.view.value()
        self._grey(view)
        draw = {RATE: draw_rates, DAY: draw_days}.get(view, draw_runs)
        self.plot.tall((_WIDE, _DAY_HIGH if view == DAY else _HIGH))
        self.plot.show_plot(draw, picture, table=table, said=self.in_words())

    def _grey(self, view: str) -> None:
        """Grey what cannot be chosen now, and say why where one points at it."""
        if view == DAY:
            why = ("All parts are drawn over the hours since the start", "No residuals here")
        elif view == RATE:
            why = (
                "The drying rate is drawn against the moisture, not against time",
                "No residuals for the drying rate",
            )
        elif self.compared:
            why = (
                "While comparing, every batch is drawn in hours from its own start",
                "While comparing, residuals would belong to more than one curve; take the other batches away first",
            )
        else:
            why = ("", "")
        for widget, reason, usual in zip((self.time, self.residuals), why, ("", _RESIDUALS), strict=True):
            widget.setEnabled(not reason)
            widget.setToolTip(reason or usual)
            widget.setAccessibleDescription(reason or usual)

    def in_words(self) -> str:
        """The chart for those who cannot see it."""
        if self.run is None:
            return ""
        style = self.session.style
        points = self.run.points
        said = f"{len(points)} {'point' if len(points) == 1 else 'points'}"
        if points:
            first, last = points[0], points[-1]
            said += f" from {style.mass(first.net_g)} to {style.mass(last.net_g)} in {last.hours:.1f} hours"
        return f"{said}. {finish_words(self.session.kitchen, self.run)}"

    # --- comparing ---------------------------------------------------------------------------------------------

    def _offer(self) -> None:
        self.menu.clear()
        if self.run is None:
            return
        rows = self._others()
        if len(rows) > 1:
            self.menu.addAction(f"The last {min(LAST, len(rows))} of them", self.compare_last)
            self.menu.addSeparator()
        for found in rows:
            action = QAction(self._name(found.batch.id, found.batch.started), self.menu)
            action.setCheckable(True)
            action.setChecked(found.batch.id in self.compared)
            action.triggered.connect(lambda on, id=found.batch.id: self.set_compared(id, on))
            self.menu.addAction(action)
        if not rows:
            self.menu.addAction("No other batch of this food was weighed").setEnabled(False)

    def compare_last(self) -> None:
        """Lay the newest weighed runs of this food beside this one."""
        self.compared.clear()
        for found in self._others()[:LAST]:
            self.set_compared(found.batch.id, True)

    def _others(self) -> list[BatchRow]:
        """The newest other batches of this food that were weighed."""
        if self.run is None:
            return []
        journal, mine = self.session.kitchen.journal, self.run.batch
        ids = [i for i in journal.batch_ids(BatchQuery(foods=(mine.food,)))[: 4 * _OFFERED] if i != mine.id]
        return [r for r in journal.batch_rows(ids) if r.weighings >= 2][:_OFFERED]

    def set_compared(self, batch: int, on: bool) -> None:
        """Lay another batch over this one, or take it away."""
        if on:
            run = run_of(self.session.kitchen, batch)
            name = self._name(batch, run.batch.started)
            self.compared[batch] = picture_of(
                self.session.kitchen, run, self.session.style, name=name, with_forecast=False
            )
        else:
            self.compared.pop(batch, None)
        self.draw()

    def _name(self, batch: int, started: datetime | None) -> str:
        if started is None:
            return f"batch {batch}"
        here = self.session.kitchen.local(started)
        return f"batch {batch}, {day_words(here)}"


class CurvesPane(QWidget):
    """The fitted models: why one of them is chosen, what the drying rate shows, their table, their chart, and the
    moisture as those who fit curves count it."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session
        self.table = CurvesTable()
        self.said = text_label("", "muted", select=True)
        self.chart = ChartPane(session, models=True)
        hold(self.chart, high=420)
        self.figures = [FigureView(session, "", brief=True) for _ in _AS_MODELS_COUNT]
        page = QWidget()
        inside = column(page, space=8)
        inside.addWidget(self.said)
        inside.addLayout(Tiles(*self.figures, least=160))
        inside.addWidget(self.table)
        inside.addWidget(self.chart)
        inside.addStretch(1)
        column(self).addWidget(scrolling(page))

    def show_run(self, run: DryingRun | None) -> None:
        """Show the fits of a run."""
        style, curves = self.session.style, run.curves if run else None
        lines = curve_lines(curves, style) if curves else ["No curve without the starting moisture."]
        if curves is not None and curves.fits:
            lines.append(message_words(periods(curves.hours, curves.mr), style))
        self.said.setText("\n".join(lines))
        self.table.show_run(run)
        self.table.setVisible(bool(curves and curves.fits))
        self.chart.show_run(run)
        known = (None, None) if run is None else (run.moisture_dry_basis, run.moisture_ratio)
        for view, id, figure in zip(self.figures, _AS_MODELS_COUNT, known, strict=True):
            view.setVisible(figure is not None)
            view.set_figure(figure, title=caption(id))


class CurvesTable(QTableWidget):
    """Every fitted model with its statistics, the chosen one marked in words."""

    HEADINGS = ("Model", "Chosen", "Parameters (standard error)", "R²", "RMSE", "Reduced χ²", "SSE", "AICc")

    def __init__(self) -> None:
        super().__init__(0, len(self.HEADINGS))
        dress(self, self.HEADINGS, figures=range(3, len(self.HEADINGS)))
        self.verticalHeader().hide()
        self.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QTableWidget.SelectionBehavior.SelectRows)
        self.setTabKeyNavigation(False)
        self.setAccessibleName("Curves fitted to the weighings")
        self.setToolTip("RMSE is √(SSE/N) of the moisture ratio; reduced χ² is SSE/(N − parameters)")

    def show_run(self, run: DryingRun | None) -> None:
        """List the fits of a run."""
        curves = run.curves if run else None
        fits = curves.fits if curves else ()
        self.setRowCount(len(fits))
        for line, fit in enumerate(fits):
            inside = "; ".join(
                f"{name} {value:.4g}" + (f" ({error:.2g})" if error is not None else "")
                for name, (value, error) in fit.parameters.items()
            )
            chi = "—" if fit.reduced_chi2 is None else f"{fit.reduced_chi2:.2e}"
            chosen = "chosen" if curves and fit is curves.chosen else ""
            cells = (
                fit.name,
                chosen,
                inside,
                f"{fit.r2:.5f}",
                f"{fit.rmse:.4f}",
                chi,
                f"{fit.sse:.2e}",
                f"{fit.aicc:.1f}" if math.isfinite(fit.aicc) else "—",
            )
            for place, text in enumerate(cells):
                item = QTableWidgetItem(text)
                if place > 2:
                    item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
                item.setToolTip("\n".join((fit.formula, *(message_words(warning) for warning in fit.warnings))))
                self.setItem(line, place, item)
        self.resizeColumnsToContents()
        bar = self.horizontalScrollBar().sizeHint().height()
        self.setFixedHeight(self.horizontalHeader().sizeHint().height() + self.verticalHeader().length() + bar + 4)
