"""How wide words will be on paper, near enough to keep them off lines and inside their boxes."""

from __future__ import annotations

import textwrap

CAP_HEIGHT = 0.668  # height of a capital in the shipped fonts, share of the font size
FALLBACK = 1.17  # how much wider lines run where the shipped fonts are missing and a common sans stands in
MONO_ADVANCE = 0.632  # width of every character of the mono font, share of the font size
_WIDTHS = (("',.:;`j|il !I", 0.26), ("\"()[]{}ftr-/\\_1°²³·", 0.36), ("yvzcsxk*?7J", 0.50), ("HGNOQUwD#&@", 0.68),
           ("MmW%—", 0.85))  # fmt: skip
_WIDTH = {c: w for letters, w in _WIDTHS for c in letters}


def text_width(words: str, height: float, mono: bool = False, bold: bool = False) -> float:
    """Width [same unit as height] of words whose capitals are `height` high."""
    shares = len(words) * MONO_ADVANCE if mono else sum(_WIDTH.get(c, 0.57) for c in words) * (1.05 if bold else 1.0)
    return shares * height / CAP_HEIGHT


def fit(words: str, width: float, height: float, least: float = 1.8, **style: bool) -> tuple[str, float]:
    """Shrink the height, then shorten the words, until they are at most `width` wide."""
    wide = text_width(words, height, **style)
    if wide <= width:
        return words, height
    height = max(least, height * width / wide)
    while len(words) > 1 and text_width(words, height, **style) > width:
        words = words[:-2].rstrip() + "…"
    return words, height


def wrap(words: str, width: float, height: float) -> list[str]:
    """Break words into lines of at most about `width`."""
    if not words:
        return []
    average = FALLBACK * text_width(words, height) / len(words)
    return textwrap.wrap(words, max(8, int(width / average)))
