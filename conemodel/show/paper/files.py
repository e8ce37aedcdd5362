"""A figure as a file: the same figure gives the same bytes.

matplotlib is loaded on first use.
"""

import io
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from matplotlib.figure import Figure


def to_png(figure: "Figure", *, dpi: int = 150) -> bytes:
    """Return a figure as PNG; the same figure gives the same bytes."""
    return _saved(figure, format="png", dpi=dpi, metadata={"Software": None})


def to_pdf(figure: "Figure") -> bytes:
    """Return a figure as PDF; the same figure gives the same bytes: no date stands in it."""
    return _saved(figure, format="pdf", metadata={"CreationDate": None, "Producer": None, "Creator": None})


def _saved(figure: "Figure", **how: Any) -> bytes:
    stream = io.BytesIO()
    figure.savefig(stream, **how)
    return stream.getvalue()
