"""How far apart two colors are to the eye, as WCAG reckons it."""

from __future__ import annotations


def linear(colour: str) -> list[float]:
    shares = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    return [s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares]


def luminance(colour: str) -> float:
    """Relative luminance of `#RRGGBB` (WCAG 2.2, definition of relative luminance)."""
    red, green, blue = linear(colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21 (WCAG 2.2, definition of contrast ratio)."""
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)
