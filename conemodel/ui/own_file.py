"""What is brought as a file, carried in the address: a reload, another screen or another person has it too."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

import streamlit as st

from conemodel.base.errors import InputProblems
from conemodel.ui.packed_text import pack, unpack

T = TypeVar("T")

LONGEST = 4000
"""Most characters of what is packed: that leaves an address room for all else."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnFile(Generic[T]):
    """A kind of file that is brought.

    Attributes:
        what: it is, in a word; place: under which it stands in the address.
        read: makes it of a text, under a name; raises `InputProblems` where that cannot be.
        write: gives it as text.
    """

    what: str
    place: str
    read: Callable[[str, str], T]
    write: Callable[[T], str]

    @property
    def _key(self) -> str:
        return f"own_{self.what}"

    @property
    def lost(self) -> str:
        """What was wrong with the one in the address, empty where nothing was."""
        return str(st.session_state.get(f"{self._key}_lost", ""))

    def brought(self) -> T | None:
        """Return the one brought in this visit, or with the address; what is wrong with it is kept to be said."""
        packed, name = st.query_params.get(self.place), f"the {self.what} in the address"
        if self._key not in st.session_state and packed is not None:
            try:
                st.session_state[self._key] = self.read(unpack(packed, name=name), name)
            except InputProblems as error:
                self.lose(str(error))
        found: T | None = st.session_state.get(self._key)
        return found

    def take(self, brought: T) -> None:
        """Take one that was just brought."""
        st.session_state[self._key] = brought
        st.session_state[f"{self._key}_lost"] = ""

    def lose(self, why: str) -> None:
        """Keep why the one in the address could not be had, where nothing worse is known yet."""
        st.session_state.setdefault(f"{self._key}_lost", why)

    def keep(self, *, chosen: bool) -> None:
        """Put the one brought into the address if it is `chosen`, or take it out; say what a reload would lose."""
        brought = self.brought()
        packed = pack(self.write(brought)) if chosen and brought else None
        if packed is None:
            st.query_params.pop(self.place, None)
        elif len(packed) > LONGEST:
            st.query_params.pop(self.place, None)
            st.warning(
                f"Your own {self.what} is too long for the address: a reload loses it, and a link does not carry it. "
                "Keep its file; its words may be fewer."
            )
        elif st.query_params.get(self.place) != packed:
            st.query_params[self.place] = packed
