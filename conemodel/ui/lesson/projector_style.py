"""How a story is set for the back of the room: no frame, nothing to scroll, no text below 24 px from 641 px on."""

from conemodel.show.lesson.html import UPRIGHT_WINDOW, wall_style
from conemodel.show.palette import tones

WALL = """
:root {--cm-wall: max(24px, min(1.9vw, 3.35vh))}
[data-testid=stHeader], .st-key-cm-menu {display: none}
[data-testid=stMainBlockContainer] {padding: 0.1rem 1.2rem 2.85rem}
[data-testid=stMainBlockContainer] > [data-testid=stVerticalBlock] {gap: 0}
.st-key-cm-wall, .st-key-cm-wall [data-testid=stVerticalBlock] {gap: 0.15rem}
.cm-head, .cm-side, .cm-below, .cm-answer, .cm-hands, .cm-caution {font-size: var(--cm-wall); line-height: 1.15}
.cm-head {display: flex; justify-content: space-between; align-items: baseline; gap: 1em}
.cm-head h1 {font-size: 1.2em; font-weight: 700; line-height: 1.1; margin: 0; padding: 0}
div.cm-below p {font-size: inherit}
.cm-below p, .cm-answer, .cm-hands, .cm-caution {margin: 0}
.cm-below .cm-legend {display: flex; flex-wrap: wrap; column-gap: 1em} .cm-legend span {opacity: 0.8}
.cm-below .cm-ask {font-weight: 700}
.cm-answer b {font-size: 1.3em; line-height: 1.1; margin-right: 0.2em} .cm-unsafe b {font-size: 1.08em}
.cm-answer span {margin-left: 0.5em}
.cm-unsafe, .cm-below .cm-dented {border: 3px solid; padding: 0 0.4em}
.st-key-cm-wall button, .st-key-cm-wall button *, .st-key-cm-wall label p, .st-key-cm-wall input,
[data-testid=stPopoverBody] * {font-size: var(--cm-wall); line-height: 1.2}
.st-key-cm-keys {position: fixed; z-index: 10; left: 0; right: 0; bottom: 0; padding: 0.3rem 1.2rem;
  flex-wrap: wrap}
.st-key-cm-keys button {min-height: 2.4rem; padding: 0.15rem 0.8rem}
.st-key-cm-wall [data-testid=stHorizontalBlock]:has(.cm-side) {align-items: flex-end}
.cm-answer .cm-whose {display: none}
@media UPRIGHT_WINDOW {
  .st-key-cm-wall [data-testid=stHorizontalBlock]:has(.cm-side) {flex-direction: column; gap: 0.6rem}
  .st-key-cm-wall [data-testid=stHorizontalBlock]:has(.cm-side) > [data-testid=stColumn] {width: 100%}
  .cm-answer .cm-whose {display: block}
}
@media (max-width: 640px) {
  :root {--cm-wall: 16px}
  .cm-head {flex-wrap: wrap; row-gap: 0}
  .st-key-cm-wall > :has(.cm-side, .cm-hands) {order: 1} .st-key-cm-wall > :has(.cm-caution) {order: 2}
  .cm-answer .cm-whose {display: inline; margin-right: 0.3em}
  .st-key-cm-keys {gap: 0.3rem; padding: 0.3rem 0.5rem}
  .st-key-cm-keys button {padding: 0.15rem 0.5rem}
  .st-key-cm-keys kbd {display: none}
  [data-testid=stMainBlockContainer] {padding-bottom: 7rem}
}
""".replace("UPRIGHT_WINDOW", UPRIGHT_WINDOW)


def style(*, dark: bool) -> str:
    """Return the whole style of the wall, in the colours of a dark or light ground."""
    look = tones(dark=dark)
    return (
        f"<style>{WALL}{wall_style(dark=dark)}"
        f".st-key-cm-keys {{background: {look.paper}}}"
        f".cm-unsafe, .cm-below .cm-dented {{border-color: {look.forbidden}}}"
        f".st-key-cm-wall button[kind=primary]:enabled * {{color: {look.paper}}}</style>"
    )
