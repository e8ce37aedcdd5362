"""A job card on one sheet of A5: the workshop's half, the customer's half, and a tag for the wheel to cut off.

Nothing on it says that a wheel is safe. What is not answered is a line to fill in by pen.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from conemodel.show.headline import SIGNS
from conemodel.show.job_card.customer_words import AFTER_FIRST_RIDES, done_words, found_words, recheck_words
from conemodel.show.job_card.sheet_rows import rows_of, write_rows
from conemodel.show.paper.files import to_pdf
from conemodel.show.paper.flow import Block, write_blocks
from conemodel.show.paper.sheet import PAPERS, Sheet, new_sheet, text_width
from conemodel.show.setting.text import CAUTION
from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.stops import headline_of_card

if TYPE_CHECKING:
    from matplotlib.figure import Figure

MARGIN = 8.0
"""Of the sheet [mm]."""

FOLD, CUT = 126.0, 185.0
"""Where the workshop's half ends and the customer's begins, and where the tag is cut off [mm from the top]."""

DASHES = (0, (4, 3))

STOPS_FOOT = 43.0
"""Where what is said largest with all its stops ends at the latest, so that the steps have room [mm]."""

STOP_SIZES = ((10.0, 8.0), (9.0, 7.0), (8.0, 6.0), (7.0, 5.5), (6.0, 4.5))
"""Type of the largest words and of the stops below them [point]: the first in which all fit; nothing of them is cut."""

BLANK = "_" * 40
"""What is filled in by pen."""


def card_pdf(card: Card) -> bytes:
    """Return a job card as PDF; the same card gives the same bytes."""
    return to_pdf(card_figure(card))


def card_figure(card: Card) -> "Figure":
    """Return a job card on a sheet of A5, upright."""
    sheet = new_sheet(PAPERS["A5"])
    _workshop(sheet, card)
    _customer(sheet, card)
    _tag(sheet, card)
    return sheet.figure


def _workshop(sheet: Sheet, card: Card) -> None:
    """Write the half that stays: what is said largest, then every step."""
    right, room = sheet.width - MARGIN, sheet.width - 2 * MARGIN
    sheet.write((MARGIN, 12), f"Job card {card.text('tag')}", size=12, bold=True, room=80)
    mechanic = next((entry.by for entry in reversed(card.entries) if entry.by), "")
    known = ", ".join(part for part in (card.begun_at[:10], mechanic, card.id[:8]) if part)
    sheet.write((right, 12), known, size=8, align="right", room=48)
    top = _first_words(sheet, (MARGIN, 14), card, room=room)
    whole = write_rows(sheet, (MARGIN, top + 1), list(rows_of(card)), room=room, foot=FOLD - 4)
    if not whole:
        sheet.write((right, FOLD - 1.5), "more stands on the card", size=7, align="right")
    sheet.line((0, FOLD), (sheet.width, FOLD), width=0.6, dash=DASHES, colour="0.5")


def _first_words(sheet: Sheet, at: tuple[float, float], card: Card, *, room: float) -> float:
    """Write what a card says largest, and every stop, and return where the next may begin [mm]."""
    headline = headline_of_card(card)
    sign = SIGNS.get(headline.question, "")
    said = [f"{answer.head} {answer.act}".strip() for answer in (headline.answer, *headline.stops)]
    for large, small in STOP_SIZES:
        sizes = (large, *(small for _ in said[1:]))
        blocks = [
            Block(words=f"{sign} {words}".strip() if not place else words, size=size, bold=True, gap=0)
            for place, (words, size) in enumerate(zip(said, sizes, strict=True))
        ]
        if sum(block.height(room, 1.0) for block in blocks) <= STOPS_FOOT - at[1]:
            break
    return write_blocks(sheet, at, blocks, room=room, foot=FOLD)


def _customer(sheet: Sheet, card: Card) -> None:
    """Write the half that goes with the wheel's owner, with a line to sign for it."""
    room = sheet.width - 2 * MARGIN
    write_blocks(sheet, (MARGIN, FOLD + 1.5), _customer_blocks(card), room=room, foot=CUT - 9)
    sheet.write((MARGIN, CUT - 4), "Received", size=8)
    sheet.line((MARGIN + 15, CUT - 4), (MARGIN + 80, CUT - 4), width=0.5)
    sheet.write((MARGIN + 86, CUT - 4), "Date", size=8)
    sheet.line((MARGIN + 95, CUT - 4), (sheet.width - MARGIN, CUT - 4), width=0.5)


def _customer_blocks(card: Card) -> Iterator[Block]:
    """Yield what the customer is told: danger first, the cautions before what could be left out."""
    known = ", ".join(part for part in (card.text("customer"), _wheel(card), card.text("rim_mark")) if part)
    yield Block(words=f"For the customer: {known or BLANK}", size=10, bold=True, gap=0, most=2)
    headline = headline_of_card(card)
    if headline.question != "adjustment":
        yield Block(words=f"{headline.answer.head} {headline.answer.act}", size=9, bold=True)
        yield Block(words=" ".join(answer.head for answer in headline.stops), size=8.5, bold=True)
    yield Block(words=f"Look at it again: {recheck_words(card) or BLANK}", size=9.5, bold=True)
    yield Block(words=AFTER_FIRST_RIDES, size=8, bold=True)
    yield Block(words=CAUTION, size=8)
    said = (
        ("Advice", card.text("advice_given")),
        ("Found", found_words(card)),
        ("Done", done_words(card)),
        ("Note", card.text("note")),
    )
    for head, words in said:
        yield Block(words=f"{head}: {words or BLANK}" if words or head != "Note" else "", size=8.5, most=3)


def _wheel(card: Card) -> str:
    """Return which wheel it is, empty where it was not said."""
    return f"{card.text('wheel')} wheel" if card.answer("wheel") else ""


def _tag(sheet: Sheet, card: Card) -> None:
    """Draw the tag: where to cut, a hole for a string, its number as large as it fits, and when to come again."""
    from matplotlib.patches import Circle

    sheet.line((0, CUT), (sheet.width, CUT), width=0.8, dash=DASHES)
    sheet.write((MARGIN - 4, CUT + 1.3), "✂", size=10)
    middle = (CUT + sheet.height) / 2
    sheet.axes.add_patch(Circle((MARGIN + 4, middle), 2.5, fill=False, linewidth=0.8))
    left, right = MARGIN + 12, sheet.width - MARGIN
    _numbered(sheet, (left, middle), card, room=44)
    unsafe = headline_of_card(card).question == "safe"
    words = headline_of_card(card).answer.words.split(":")[0] if unsafe else "Look at it again"
    x = left + 50
    sheet.write((x, middle - 4), words, size=15 if unsafe else 10, bold=True, room=right - x)
    if again := recheck_words(card):
        sheet.paragraph((x, middle - 1), again, size=11, bold=True, room=right - x, most=2)
    else:
        sheet.line((x, middle + 4), (right, middle + 4), width=0.5)


def _numbered(sheet: Sheet, at: tuple[float, float], card: Card, *, room: float) -> None:
    """Write tag number and wheel, or a line for the number."""
    left, middle = at
    number = card.text("tag")
    if number:
        size = next(
            (size for size in (24.0, 18.0, 13.0) if text_width(number, size=size, bold=True) <= room), 9.0
        )
        sheet.write((left, middle + 2), number, size=size, bold=True, room=room)
    else:
        sheet.line((left, middle + 2), (left + room, middle + 2), width=0.5)
    sheet.write((left, middle + 8), _wheel(card), size=9, room=room)
