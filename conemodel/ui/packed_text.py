"""A text packed for an address: compressed, in letters that stand in one as they are."""

import base64
import binascii
import zlib
from functools import lru_cache

from conemodel.base.errors import InputProblems, Problem
from conemodel.parts.foreign_file import FILE_SIZE_LIMIT

LONGEST_ADDRESS = 6000
"""Most characters of an address after its question mark: servers on its way commonly take 8000, from memory."""


@lru_cache(maxsize=8)
def pack(text: str) -> str:
    """Return a text as it stands in an address; `unpack` reads it back."""
    return base64.urlsafe_b64encode(zlib.compress(text.encode(), 9)).decode().rstrip("=")


def unpack(packed: str, *, name: str) -> str:
    """Return the text that was packed, at most as long as a file may be; `name` says what it is.

    Raises:
        InputProblems: it is too long, cut short or damaged.
    """
    try:
        if len(packed) > LONGEST_ADDRESS:
            raise ValueError
        data = base64.b64decode(packed + "=" * (-len(packed) % 4), altchars="-_", validate=True)
        opened = zlib.decompressobj()
        text = opened.decompress(data, FILE_SIZE_LIMIT)
        if not opened.eof:
            raise ValueError
        return text.decode()
    except (binascii.Error, ValueError, zlib.error):
        limit = "was cut short or changed on its way, or is too long"
        raise InputProblems([Problem(where=name, value="", limit=limit)]) from None
