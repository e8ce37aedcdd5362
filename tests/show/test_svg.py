"""Words broken into lines."""

from conemodel.show.svg import wrap_text


def test_wrapped_lines_lose_no_word():
    text = "where it stands now and where it stood before it was locked"
    lines = wrap_text(text, width=120, size=10)
    assert " ".join(lines) == text
    assert len(lines) > 2
