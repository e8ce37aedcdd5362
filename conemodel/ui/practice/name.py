"""The field for the name somebody practises under: asked once, remembered by the browser, or none."""

from conemodel.ui.visit import ask_for_name

WITH_NAME = (
    "What you do is kept under this name on the computer that runs this, and comes up again when it is due. This "
    "browser remembers the name until it is emptied here. Anyone who types it sees what is kept."
)
WITHOUT_NAME = (
    "Without a name what you do is kept as nobody's, and only this page's own address leads back to it: a reload goes "
    "on, and so does another day from a bookmark. With a name, it comes up again wherever you type it."
)
"""What a name means, and what none does."""


def ask_name() -> None:
    """Draw the field for the name, and have the browser remember what stands in it."""
    ask_for_name("Your name, or none", WITH_NAME, WITHOUT_NAME)
