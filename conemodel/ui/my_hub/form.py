"""My hub: what a mechanic knows of it, entered by chips and steps; the rest is usual for its family."""

from collections.abc import Callable, Mapping
from typing import Any

import streamlit as st

from conemodel.base.plain_text import for_page
from conemodel.parts.axle import YOUNG
from conemodel.parts.clamp_kinds import CLAMP_KINDS
from conemodel.parts.hub_families import BALLS, FAMILIES, THREADS, WIDTHS, family_of
from conemodel.parts.known_doubts import doubts_of
from conemodel.parts.scenario import Scenario
from conemodel.physics.thread import root_diameter
from conemodel.show.known_hub import Size, known_html, value_words
from conemodel.ui.files import say_problems
from conemodel.ui.my_hub.entries import (
    begin,
    entered,
    go_on_or_begin,
    is_begun,
    problems,
    set_to,
    sizes,
    step,
    take,
    whole,
)

STYLE = """
<style>
.st-key-cm-mine button {min-height: 48px; min-width: 48px}
.st-key-cm-mine [data-testid=stButtonGroup] button {min-height: 48px; padding-inline: 0.9rem}
[class*=st-key-mine_row] {gap: 0.3rem; flex-wrap: nowrap}
[class*=st-key-mine_row] > :nth-child(2) {flex: 1 1 auto; min-width: 0}
[class*=st-key-mine_less], [class*=st-key-mine_more] {flex: 0 0 56px}
.st-key-cm-mine summary {min-height: 48px; align-items: center}
.st-key-cm-mine-steps {gap: 0.5rem 1.2rem}
.st-key-cm-mine-steps > [data-testid=stLayoutWrapper] {flex: 1 1 20rem; width: auto; min-width: 0}
[class*=st-key-mine_value] button, [class*=st-key-mine_value] button * {white-space: normal; overflow: visible}
[class*=st-key-mine_less] button, [class*=st-key-mine_more] button {width: 56px; position: relative}
[class*=st-key-mine_less] button p, [class*=st-key-mine_more] button p {
  position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%)}
[class*=st-key-mine_less] button::before {content: "\\2212" / ""}
[class*=st-key-mine_more] button::before {content: "+" / ""}
[class*=st-key-mine_less] button::before, [class*=st-key-mine_more] button::before {
  position: absolute; inset: 0; display: grid; place-items: center; font-size: var(--cm-value)}
.st-key-mine_use {position: sticky; bottom: 0; z-index: 2; padding: 0.4rem 0}
</style>
"""

ENDS = {"front": True, "rear": False}
CLAMPS = {kind.words: name for name, kind in CLAMP_KINDS.items()}

STEPPED = ("over_locknut_width", "protrusion_left", "protrusion_right", "dropout_thickness", "dropout_width")
"""What is measured along the axle."""

AS_LEFT, DIFFERS = "same as left", "differs"


def offer_my_hub(hub: Scenario, *, used: Callable[[], None] | None = None) -> None:
    """Draw the button that opens the form, started from a hub; `used` is called once the hub entered is taken.

    What was entered before and not used is still in it.
    """
    if st.button("My hub", key="my_hub"):
        before = is_begun()
        go_on_or_begin(hub)
        _open_form(used, hub if before else None)


@st.dialog("My hub", width="large")
def _open_form(used: Callable[[], None] | None, other: Scenario | None) -> None:
    draw_form(used, other)


def draw_form(used: Callable[[], None] | None = None, other: Scenario | None = None) -> None:
    """Draw the form; a tap draws this again and nothing else on its page.

    Where it goes on with what was entered before, `other` is the hub that it could start from instead.
    """
    st.html(STYLE)
    with st.container(key="cm-mine"):
        if other is not None and is_begun():
            st.caption("What you entered before is still here.")
            st.button("Start afresh from the hub chosen", key="mine_afresh", on_click=begin, args=(other,))
        st.caption("Tap what you know. Everything else is usual for its kind, and says so.")
        _ask_family()
        _ask_balls()
        _ask_widths()
        _ask_rest()
        wrong = problems()
        if wrong:
            say_problems(
                "These do not go together. What you entered is still there.", "\n".join(map(str, wrong))
            )
        else:
            st.html(known_html(whole()))
            for words in doubts_of(whole()):
                st.warning(for_page(words))
        if st.button(
            "Use this hub",
            key="mine_use",
            type="primary",
            disabled=bool(wrong),
            on_click=_use,
            args=(used,),
            width="stretch",
        ):
            st.rerun()


def _use(used: Callable[[], None] | None) -> None:
    take()
    if used is not None:
        used()


def _ask_family() -> None:
    """Ask at which end it is, what holds it, and its thread."""
    family = FAMILIES[entered()["family"]]
    _chips("end", "Which wheel", ENDS, family.front, _take_family, required=True)
    _chips("clamp", "What holds it", CLAMPS, family.clamp, _take_family, required=True)
    fitting = {
        value_words("thread", name): name
        for name, (diameter, pitch) in THREADS.items()
        if root_diameter(diameter=diameter, pitch=pitch) > family.bore or entered().get("thread") == name
    }
    _ask_chips("thread", fitting)


def _take_family() -> None:
    """Take the family of the end and the clamp that were tapped."""
    end, clamp = st.session_state.mine_end, st.session_state.mine_clamp
    set_to("family", family_of(front=ENDS[end], clamp=CLAMPS[clamp]))


def _ask_balls() -> None:
    """Ask for number and size of the balls, of each side where they differ."""
    _ask_step("ball_count_left")
    _ask_chips("ball_diameter_left", BALLS)
    right = ("ball_count_right", "ball_diameter_right")
    options = {AS_LEFT: False, DIFFERS: True}
    differs = st.session_state.get("mine_differs") == DIFFERS or any(name in entered() for name in right)
    _chips("differs", "Balls, right side", options, differs, _take_right, required=True)
    if differs:
        _ask_step("ball_count_right")
        _ask_chips("ball_diameter_right", BALLS)


def _take_right() -> None:
    """Forget the right side's balls where they are as on the left."""
    if st.session_state.mine_differs == AS_LEFT:
        for name in ("ball_count_right", "ball_diameter_right"):
            set_to(name, None)


def _ask_widths() -> None:
    """Ask for everything measured along the axle."""
    front = FAMILIES[entered()["family"]].front
    _ask_chips(
        "over_locknut_width", {value_words("over_locknut_width", width): width for width in WIDTHS[front]}
    )
    for field in STEPPED:
        _ask_step(field)


def _ask_rest() -> None:
    """Ask for washers and material, and for what was measured of thread and clamp."""
    _ask_chips("keyed_washer", {"keyed": True, "not keyed": False})
    _ask_chips("material", {name: name for name in YOUNG})
    with st.expander("Measured: thread slack, clamp force"):
        _ask_step("thread_slack")
        _ask_step("clamp_force")


def _ask_chips(field: str, options: Mapping[str, Any]) -> None:
    """Ask for a field by chips; one that is tapped again is not known any more."""

    def take_chip() -> None:
        set_to(field, options.get(st.session_state[f"mine_{field}"]))

    size = sizes()[field]
    words = "" if size.known else f": {_assumed(size)}"
    _chips(field, size.label + words, options, entered().get(field), take_chip)


def _chips(
    name: str,
    label: str,
    options: Mapping[str, Any],
    chosen: Any,
    take_chip: Callable[[], None],
    *,
    required: bool = False,
) -> None:
    """Draw chips, words to value, of which the one of the value `chosen` looks tapped."""
    words = next((words for words, value in options.items() if value == chosen), None)
    st.session_state[f"mine_{name}"] = words
    st.pills(label, list(options), key=f"mine_{name}", on_change=take_chip, required=required, wrap=True)


def _ask_step(field: str) -> None:
    """Ask for a field by steps; a tap on the value itself says that it is known to be so, or not known any more."""
    size = sizes()[field]
    with st.container(horizontal=True, key=f"mine_row_{field}"):
        st.button(f"{size.label}: less", key=f"mine_less_{field}", on_click=step, args=(field, -1))
        said = f"**{size.words}**" if size.known else _assumed(size)
        st.button(
            f"{size.label}: {said}",
            key=f"mine_value_{field}",
            on_click=set_to,
            args=(field, None if size.known else size.value),
            width="stretch",
        )
        st.button(f"{size.label}: more", key=f"mine_more_{field}", on_click=step, args=(field, 1))


def _assumed(size: Size) -> str:
    """Return what is assumed of a thing, in words."""
    return f"assumed {size.words}" + (f" ({size.span})" if size.span else "")
