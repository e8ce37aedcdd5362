"""What is set on a page, kept in the address bar by short plain names, so that a setting can be sent as a link.

A choice stands there by its name, not by the words it is shown in; a value that equals its default is left out; what
the address holds is used only where it is valid.
"""

from collections.abc import Callable, Mapping
from math import isfinite
from typing import Any

import streamlit as st

BETWEEN = "_"
"""Stands between numbers in an address."""


def choice(
    draw: Callable[..., Any],
    label: str,
    options: Mapping[str, str],
    *,
    key: str,
    default: str,
    **more: Any,
) -> str:
    """Draw a choice between `options`, name to words.

    `draw` is radio, selectbox, segmented_control or select_slider.
    """
    names = list(options)
    if st.session_state.get(key) not in names:
        asked = st.query_params.get(key, default)
        st.session_state[key] = asked if asked in names else default
    chosen = draw(
        label, names, format_func=lambda name: options[name], key=key, persist_state="session", **more
    )
    value = str(chosen) if chosen in names else default
    keep(key, value, default)
    return value


def number(
    draw: Callable[..., Any],
    label: str,
    low: float,
    high: float,
    *,
    key: str,
    default: float,
    **more: Any,
) -> float:
    """Draw a number from `low` to `high`; `draw` is slider or number_input."""
    if key not in st.session_state:
        st.session_state[key] = _in_address(low, high, key, default)
    value = float(draw(label, low, high, key=key, persist_state="session", **more))
    keep(key, f"{value:g}", f"{default:g}")
    return value


def kept_number(low: float, high: float, *, key: str, default: float) -> float:
    """Return a number that is set on another page or in a fold, keep it in this address, and draw nothing."""
    value = float(st.session_state.get(key, _in_address(low, high, key, default)))
    keep(key, f"{value:g}", f"{default:g}")
    return value


def kept_numbers(low: float, high: float, *, key: str, most: int) -> list[float]:
    """Return the numbers of what was done, the latest last, kept in this address, the last `most` of them.

    An address with one that is not from `low` to `high` is not believed in any.
    """
    if key not in st.session_state:
        asked = [_float(text) for text in st.query_params.get(key, "").split(BETWEEN)[-most:]]
        sound = [value for value in asked if value is not None and low <= value <= high]
        st.session_state[key] = sound if len(sound) == len(asked) else []
    kept: list[float] = st.session_state[key]
    del kept[:-most]
    keep(key, BETWEEN.join(f"{value:g}" for value in kept), "")
    return kept


def flag(label: str, *, key: str, default: bool, **more: Any) -> bool:
    """Draw a switch."""
    if key not in st.session_state:
        st.session_state[key] = {"yes": True, "no": False}.get(st.query_params.get(key, ""), default)
    value = bool(st.toggle(label, key=key, persist_state="session", **more))
    keep(key, "yes" if value else "no", "yes" if default else "no")
    return value


def _in_address(low: float, high: float, key: str, default: float) -> float:
    """Return the number the address holds, the default where it holds none from `low` to `high`."""
    asked = _float(st.query_params.get(key))
    return asked if asked is not None and low <= asked <= high else default


def _float(text: str | None) -> float | None:
    """Return the finite number in a text, or None."""
    try:
        value = float(text or "")
    except ValueError:
        return None
    return value if isfinite(value) else None


def keep(key: str, value: str, default: str) -> None:
    """Put a value into the address, or take it out where it is the default."""
    if value == default:
        st.query_params.pop(key, None)
    elif st.query_params.get(key) != value:
        st.query_params[key] = value
