"""Links for a class: under an address that other devices reach, each as a picture to scan from the wall."""

from collections.abc import Sequence
from ipaddress import ip_address
from urllib.parse import urlsplit

import streamlit as st

from conemodel.base.errors import InputProblems
from conemodel.base.network_address import in_url
from conemodel.show.practice.qr_code import qr_svg
from conemodel.tasks.practice.catalogue import class_links, ladder, ladder_titles
from conemodel.ui.files import offer_file, say_problems
from conemodel.ui.picture import draw_by_width
from conemodel.ui.practice.choose import ROUNDS

ONLY_HERE = (
    "These open only on this computer. For phones and other computers run `python -m conemodel serve` and open the "
    "address it prints."
)

WHAT_A_ROUND_IS = {
    True: "**Training:** coached as they go, and what was done can be taken back. It does not count as learnt.",
    False: "**Assessed:** no undo, no known hubs to feel; a pass counts as learnt.",
}
"""What a round means for those who open its link, by whether it is coached."""


def show_links(salt: str) -> None:
    """Draw the links of a class of that name: which exercise, round and how many."""
    titles = ladder_titles()
    left, right = st.columns([3, 1])
    exercise = str(
        left.selectbox("Exercise", list(titles), format_func=lambda n: titles[n], key="class_exercise")
    )
    count = right.number_input("Hubs", 1, 60, 12, key="class_count", help="One link each.")
    training = _ask_round() if ladder()[exercise].assessed else False
    try:
        codes = class_links(exercise, salt=salt, count=int(count), training=training)
    except InputProblems as error:
        say_problems("That name cannot stand in a link.", error)
        return
    address = _address_for_others()
    if address is None:
        st.warning(ONLY_HERE)
    base = _opened_at() if address is None else address
    links = [f"{base}/practise?exercise={exercise}&link={code}" for code in codes]
    with st.container(horizontal=True):
        if st.button("Show on the wall, to scan"):
            _on_the_wall(links)
        offer_file("Links (text)", "links.txt", "\n".join(links) + "\n")
    st.code("\n".join(links), language=None, wrap_lines=True)
    st.caption("A link names exercise, class and number. It gives no hidden number away.")


def _ask_round() -> bool:
    """Ask for the round that the links open, say what it is, and return whether it is coached."""
    training = bool(
        st.segmented_control(
            "Round that the links open",
            [False, True],
            format_func=ROUNDS.__getitem__,
            default=False,
            key="class_round",
            required=True,
        )
    )
    st.caption(WHAT_A_ROUND_IS[training])
    return training


@st.dialog("Scan this link", width="large")
def _on_the_wall(links: Sequence[str]) -> None:
    """Draw one link after the other so large that a phone reads it from a few metres."""
    number = int(st.number_input(f"Link, 1 to {len(links)}", 1, len(links), 1, key="class_shown"))
    link = links[number - 1]
    draw_by_width("qr", lambda **_: qr_svg(link), alt=f"QR code of link {number} of {len(links)}: {link}")
    st.code(link, language=None, wrap_lines=True)


def reached_by_others(opened: str, allowed: Sequence[str]) -> str | None:
    """Return the address to hand out, without a page; None where the app opens on this machine only.

    Args:
        opened: where this page was opened, as the browser told it.
        allowed: hosts under which the app may be opened, the one to try first at the head.
    """
    place = urlsplit(opened)
    own = place.hostname or ""
    others = [host for host in allowed if not _is_this_machine(host)]
    numbers = [host for host in others if _is_number(host)]
    if (
        not own or _is_this_machine(own) or (numbers and not _is_number(own))
    ):  # a name is known on some networks only
        if not own or not others:
            return None
        own = (numbers or others)[0]
    port = f":{place.port}" if place.port else ""
    return f"{place.scheme}://{in_url(own)}{port}{place.path.rstrip('/').rpartition('/')[0]}"


def _is_this_machine(host: str) -> bool:
    return host == "localhost" or (_is_number(host) and ip_address(host).is_loopback)


def _is_number(host: str) -> bool:
    try:
        ip_address(host)
    except ValueError:
        return False
    return True


def _address_for_others() -> str | None:
    return reached_by_others(st.context.url or "", st.get_option("server.allowedHosts"))


def _opened_at() -> str:
    """Return the address this page was opened at, without the page, as far as the browser told it."""
    return (st.context.url or "").split("?")[0].rstrip("/").rpartition("/")[0]
