"""The headline on a page and in JSON; a terminal has it as plain sentences."""

from typing import Any

from conemodel.base.plain_text import for_html
from conemodel.parts.setting import State
from conemodel.tasks.headline import Answer, Headline

SIGNS = {"safe": "⚠", "sound": "✗"}
"""A sign beside the words of what is unsafe or unsound, so that colour carries nothing alone."""


STATE_SIGNS: dict[State | None, str] = {"loose": "↔", "right": "✓", "tight": "⊗", None: "?"}
"""A sign beside the words of the adjustment, by the state that is named."""


def stop_words(headline: Headline) -> str:
    """Return the largest words with their sign where they are of what is unsafe or unsound, otherwise none."""
    sign = SIGNS.get(headline.question)
    return f"{sign} {headline.answer.words}" if sign else ""


def headline_json(headline: Headline) -> dict[str, Any]:
    """Return the headline and what stands below it; `question` is safe, sound or adjustment."""
    return {
        "question": headline.question,
        "words": headline.answer.words,
        "certainty": headline.answer.certainty,
        "act": headline.answer.act,
        "below": [answer.sentence for answer in headline.below],
    }


def headline_html(headline: Headline, *, sign: str) -> str:
    """Return the headline as HTML, so large that it can be read at arm's length, with what stands below it.

    `sign` stands beside the words where they are of the adjustment.
    """
    answer = headline.answer
    words, _, about = answer.words.partition(": ")
    unsafe = headline.question == "safe"
    parts = (("cm-sure", about), ("cm-sure", answer.certainty), ("cm-turn", answer.act))
    said = "".join(f'<span class="{name}">{for_html(text)}</span>' for name, text in parts if text)
    return (
        f'<p class="cm-verdict{" cm-stop" if unsafe else ""}" role="{"alert" if unsafe else "status"}">'
        f'<span class="cm-state"><span aria-hidden="true">{SIGNS.get(headline.question, sign)}</span> '
        f"{for_html(words)}</span>{said}</p>" + under_headline_html(headline)
    )


def under_headline_html(headline: Headline) -> str:
    """Return as HTML what stands under the largest words: why, what more to do, and every answer that comes after."""
    rest = " ".join(part for part in (headline.answer.why, headline.answer.more) if part)
    return (f"<p>{for_html(rest)}</p>" if rest else "") + "".join(
        _below(answer, card=answer in headline.stops) for answer in headline.below
    )


def _below(answer: Answer, *, card: bool) -> str:
    """Return what stands below the headline, its first words strong; on a card of its own where it is a stop."""
    opening = '<p class="cm-card">' if card else "<p>"
    return f"{opening}<strong>{for_html(answer.head)}</strong> {for_html(answer.rest)}</p>"
