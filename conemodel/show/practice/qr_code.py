"""A link as a picture that a phone's camera reads."""

import segno

from conemodel.show.palette import LIGHT

QUIET = 4
"""Empty squares around the code. [ISO/IEC 18004, from memory, page not seen]"""


def qr_svg(words: str) -> str:
    """Return the QR code of `words` as SVG, dark on light in either theme: not every reader knows the reverse.

    It has as few squares as hold the words, so that each is large from afar: a screen wears off nothing that would
    have to be mended.
    """
    code = segno.make(words, micro=False, error="l", boost_error=False)
    rows = tuple(code.matrix_iter(border=QUIET))
    dark = "".join(
        f"M{x} {y}h1v1h-1z" for y, row in enumerate(rows) for x, square in enumerate(row) if square
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {len(rows)} {len(rows)}" shape-rendering="crispEdges">'
        f'<rect width="100%" height="100%" fill="{LIGHT.paper}"/><path fill="{LIGHT.ink}" d="{dark}"/></svg>'
    )
