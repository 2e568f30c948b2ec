"""What all charts share: axes in the tokens' colours and type sizes, a quiet grid, labels with units."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dryhouse.plots.tokens import Tokens

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure


def dress(axes: Axes, tokens: Tokens, x: str, y: str) -> None:
    """Colours, grid and axis labels; `x` and `y` name the quantity and its unit, as `Time (h)`."""
    frame(axes, tokens, x, y)
    axes.grid(visible=True, color=tokens.grid, linewidth=0.8)
    axes.set_axisbelow(True)
    axes.tick_params(colors=tokens.muted, labelsize=tokens.small, length=4)


def frame(axes: Axes, tokens: Tokens, x: str, y: str) -> None:
    """The ground, the edges and the labels alone."""
    axes.set_facecolor(tokens.surface)
    for side, spine in axes.spines.items():
        spine.set_visible(side in ("left", "bottom"))
        spine.set_color(tokens.edge)
    axes.set_xlabel(x, color=tokens.ink, fontsize=tokens.body)
    axes.set_ylabel(y, color=tokens.ink, fontsize=tokens.body)


def set_labels_at(figure: Figure, axes: Axes, left: float, below: float) -> None:
    """The axes' labels so many inches beside and below them: where the numbers leave room is not worked out, which
    would take as long as drawing them twice more."""
    box, (width, height) = axes.get_position(), figure.get_size_inches()
    axes.yaxis.set_label_coords(-left / (box.width * width), 0.5)
    axes.xaxis.set_label_coords(0.5, -below / (box.height * height))
