"""Progress of a trainee, the table of a class, links for it, and an exercise of one's own."""

from collections.abc import Callable, Mapping

import streamlit as st

from conemodel.base.errors import ConemodelError
from conemodel.base.table import csv_text
from conemodel.record.attempts import attempts, delete_name, delete_nameless
from conemodel.record.database import Database
from conemodel.record.progress import CLASS_WORDS, NAMES_KEPT_BACK, list_attempts, list_class
from conemodel.tasks.practice.catalogue import ladder
from conemodel.ui.files import offer_file, say_problems
from conemodel.ui.frame import begin_page, end_page, table
from conemodel.ui.practice.class_links import show_links
from conemodel.ui.practice.name import ask_name
from conemodel.ui.practice.plan import done_so_far
from conemodel.ui.practice.trained import show_done
from conemodel.ui.practice.write_exercise import write_exercise
from conemodel.ui.url_state import choice
from conemodel.ui.visit import recall_name, visit

PARTS = {"mine": "My progress", "class": "A class", "write": "Write an exercise"}


def page() -> None:
    """Draw the page."""
    begin_page(
        "Progress and classes",
        "Attempts stay in a file on the computer that runs this. Anyone who types a name sees what is kept under it.",
    )
    part = choice(st.segmented_control, "Show", PARTS, key="part", default="mine", required=True)
    draw: Mapping[str, Callable[[], None]] = {"mine": _mine, "class": _class, "write": write_exercise}
    try:
        draw[part]()
    except ConemodelError as error:
        say_problems("The record could not be used.", error)
    end_page()


def _mine() -> None:
    ask_name()
    name, done = recall_name(), done_so_far()
    if not done:
        st.info("Nothing is kept under that name." if name else "Type the name you practised under.")
        return
    if not name:
        visit()  # its word stands in the address of this page too
        st.markdown("**No name:** what was done by whoever has this page's address.")
    show_done(done)
    offer_file("All my attempts (CSV)", "attempts.csv", csv_text(list_attempts(done)))
    _delete(name)


def _delete(name: str) -> None:
    with st.popover("Delete all of it"):
        which = "under this name" if name else "of this visit without a name"
        st.markdown(f"Everything kept {which} is deleted for good.")
        st.button("Delete", on_click=_delete_attempts, args=(name,))


def _delete_attempts(name: str) -> None:
    number = delete_name(name, Database()) if name else delete_nameless(visit(), Database())
    st.toast(f"{number} attempts deleted.")


def _class() -> None:
    salt = str(
        st.text_input(
            "Name of the class",
            key="class_name",
            persist_state="session",
            max_chars=24,
            help="Letters, digits, - and _. It stands in the links and, with a number, decides who gets which hub.",
        )
    ).strip()
    if not salt:
        st.info("Name the class, for instance evening-2. Its links and its table go by that name.")
        return
    st.header("Links for the class", anchor=False)
    show_links(salt)
    st.header("How the class did", anchor=False)
    _class_table(salt)


def _class_table(salt: str) -> None:
    done = attempts(Database(), salt=salt)
    if not done:
        st.info("Nobody in this class has finished an exercise yet.")
        return
    listed = list_class(done, ladder())
    table(listed)
    st.caption(CLASS_WORDS)
    st.caption(NAMES_KEPT_BACK)
    left, right = st.columns(2)
    with left:
        offer_file("This table (CSV)", "class.csv", csv_text(listed))
    with right:
        offer_file("Every attempt (CSV)", "class-attempts.csv", csv_text(list_attempts(done)))
