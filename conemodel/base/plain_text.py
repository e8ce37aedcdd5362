r"""Text that others wrote, made safe for where it is put: it is shown letter for letter and is never markup.

Names, stories, captions and answers come from files, links and forms. One function for each target; all of them first
make visible what could hide or reorder other text, such as the escape of a terminal or a reversal of direction.
"""

import re
from html import escape

_UNSEEN = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\xad\u061c\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb"
    "\ud800-\udfff\U000e0000-\U000e007f]"
)
"""Controls, marks of direction, blanks without width, separators of lines, halves of letters, tags."""

_MARKDOWN = re.compile(r"[\\`*_\[\]<>~$|!&]")
_OPENS = re.compile(r"^([#+=-]|\d+(?=[.)]))")
_JOINED = re.compile(r"(?i)(?<=\bwww)(?=\.)|(?<=:)(?=\S)|(?<=@)(?=\S)|(?<=[-<>~=])(?=[-<>~=])")
_FORMULA = ("=", "+", "-", "@", "\t", "\r")

KEEP_APART = "\N{WORD JOINER}"
"""Has no width; parts what markdown would otherwise make a link, a sign or an arrow of, even where it is escaped."""


def visible(text: str) -> str:
    r"""Return a text with its unseen characters written out as JSON does; lines and tabs stay.

    >>> visible("a\x1b[31mb")
    'a\\u001b[31mb'
    """
    return _UNSEEN.sub(lambda found: _written_out(found[0]), text)


def one_line(text: str) -> str:
    r"""Return a text on one line, its blanks single and its unseen characters written out.

    >>> one_line("  a\n\tb ")
    'a b'
    """
    return visible(" ".join(text.split()))


def for_page(text: str) -> str:
    r"""Return a text for the markdown of a page and of the labels on it, on one line.

    >>> for_page("*a* $b$")
    '\\*a\\* \\$b\\$'
    """
    apart = _JOINED.sub("\0", one_line(text))
    escaped = _MARKDOWN.sub(r"\\\g<0>", apart)
    escaped = _OPENS.sub(
        lambda found: f"\\{found[0]}" if not found[0].isdigit() else found[0] + "\0", escaped
    )
    return escaped.replace(":\0", "\\:\0").replace("\0", KEEP_APART)


def for_html(text: str) -> str:
    """Return a text for HTML and SVG, between tags or within quotes.

    >>> for_html("<b>")
    '&lt;b&gt;'
    """
    return escape(visible(text))


def for_picture(text: str) -> str:
    r"""Return a text for a drawn figure, PNG or PDF: no mathematics, and a name in a legend even with a line below.

    >>> for_picture("a $b$")
    'a \\$b\\$'
    """
    shown = visible(text).replace("$", r"\$")
    return f" {shown}" if shown.startswith("_") else shown


def for_csv(value: object) -> object:
    """Return a cell of CSV: a text that a spreadsheet would run as a formula is made plain text; numbers stay.

    >>> for_csv("=1+1"), for_csv("-1.5"), for_csv(-1.5)
    ("'=1+1", '-1.5', -1.5)
    """
    if not isinstance(value, str):
        return value
    starts = value.startswith(_FORMULA) or value.strip().startswith(_FORMULA)
    formula = starts and not _is_number(value)
    return visible(f"'{value}" if formula else value)


def for_terminal(text: str) -> str:
    r"""Return a text for a terminal, its lines kept: nothing in it moves the cursor, colours or reorders.

    >>> for_terminal("a\x9b2Jb\r")
    'a\\u009b2Jb\\u000d'
    """
    return visible(text)


def for_file_name(text: str) -> str:
    """Return the letters and digits of a text as a short name for a file or an address, perhaps none.

    >>> for_file_name("../A hub: 2")
    'a-hub-2'
    """
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")[:30].rstrip("-")


def _written_out(letter: str) -> str:
    r"""Return a character as JSON writes it, above U+FFFF in two halves."""
    code = ord(letter)
    if code <= 0xFFFF:
        return f"\\u{code:04x}"
    high, low = divmod(code - 0x10000, 0x400)
    return f"\\u{0xD800 + high:04x}\\u{0xDC00 + low:04x}"


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
