"""What all charts share: axes in the tokens' colours and type sizes, a quiet grid, labels with units."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dryhouse.plots.tokens import Tokens

if TYPE_CHECKING:
    from matplotlib.axes import Axes


def dress(axes: Axes, tokens: Tokens, x: str, y: str) -> None:
    """Colours, grid and axis labels; `x` and `y` name the quantity and its unit, as `Time (h)`."""
    axes.set_facecolor(tokens.surface)
    axes.grid(visible=True, color=tokens.grid, linewidth=0.8)
    axes.set_axisbelow(True)
    for side, spine in axes.spines.items():
        spine.set_visible(side in ("left", "bottom"))
        spine.set_color(tokens.edge)
    axes.tick_params(colors=tokens.muted, labelsize=tokens.small, length=4)
    axes.set_xlabel(x, color=tokens.ink, fontsize=tokens.body)
    axes.set_ylabel(y, color=tokens.ink, fontsize=tokens.body)
