"""What the other screens know and a card can take in one tap: the hub in hand, and what stands on Check a hub."""

from collections.abc import Mapping
from contextlib import suppress
from functools import lru_cache

import streamlit as st

from conemodel.base.errors import ConemodelError, InputProblems
from conemodel.base.plain_text import one_line
from conemodel.base.units import DEG, MINUTE
from conemodel.parts.readings import Readings
from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import read_scenario, write_part
from conemodel.tasks.diagnosis.procedure import act_words
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.job_card.advice import advise_measured, rounds_told
from conemodel.tasks.job_card.card import Card, Place
from conemodel.tasks.job_card.from_check import answers_from
from conemodel.tasks.job_card.measured import read_measured
from conemodel.tasks.job_card.offers import Offer, as_last_time
from conemodel.tasks.job_card.sections.setting import LONGEST_ADVICE
from conemodel.tasks.job_card.steps import STEPS
from conemodel.tasks.job_card.turn_left import TurnAdvice, turn_size
from conemodel.tasks.real_hub.taken_over import with_measured
from conemodel.ui.cache import cached_diagnosis, cached_first_turn
from conemodel.ui.choose_hub import travelling_hub
from conemodel.ui.diagnosis.entries import NOT_LOOKED, QUICK, readings_of
from conemodel.ui.own_hub import take_own_hub
from conemodel.ui.real_hub.to_card import read_for


def hub_of(card: Card) -> Scenario | None:
    """Return the hub that a card holds, None for none or one that can no longer be read."""
    if text := card.text("hub"):
        with suppress(InputProblems):
            return read_scenario(text.encode(), name="the hub of this card")
    return None


def hub_as_measured(card: Card) -> Scenario | None:
    """Return the hub that a card holds with what was measured on it; as it holds it, where that cannot be taken in."""
    hub, measured = hub_of(card), read_measured(card.text("measured"))
    if hub and measured:
        with suppress(ConemodelError):
            return _with_measured(hub, measured.slack, measured.clamp_give)
    return hub


@lru_cache(maxsize=16)
def _with_measured(hub: Scenario, slack: Interval, give: Interval | None) -> Scenario:
    return with_measured(hub, slack, give)


def offered_besides(card: Card, before: Card | None) -> Mapping[str, tuple[Offer, ...]]:
    """Return what can be taken from the last card and from the other screens, by the section it is offered in."""
    offered: dict[str, tuple[Offer, ...]] = {}
    last = as_last_time(card, before) if before else None
    if who := tuple(offer for offer in (last, _hub_offer()) if offer):
        offered["Who"] = who
    if found := _answers_of_check():
        offered["As found"] = (Offer(words="take what stands on Check a hub", answers=found),)
    return offered


def _hub_offer() -> Offer | None:
    """Return the offer of the hub that was chosen or entered in this visit; None where nobody chose one."""
    if "hub" not in st.session_state and "hub" not in st.query_params:
        return None
    hub = travelling_hub()
    text = write_part(hub)
    if STEPS["hub"].limit(text):
        return None
    return Offer(
        words=f"like the hub of the other screens: {one_line(hub.name)[:60]}", answers={Place("hub"): text}
    )


def measure_hub_of(card: Card) -> None:
    """Go to Measure a hub with the hub of a card, as it is described."""
    if hub := hub_of(card):
        take_own_hub(hub)
    read_for(card)
    st.switch_page(st.session_state.pages["measure-a-hub"])


def _answers_of_check() -> Mapping[Place, str | int | float | None]:
    quick = {field: st.session_state.get(name, NOT_LOOKED) for field, name in QUICK.items()}
    with suppress(InputProblems):
        return answers_from(readings_of({field: said for field, said in quick.items() if said != NOT_LOOKED}))
    return {}


def advice_now(card: Card, hub: Scenario | None) -> Mapping[str, TurnAdvice]:
    """Return the turn that is advised for the next round of a card, by the round; empty where nothing can be said."""
    measured = advise_measured(card)
    if measured is not None:
        return measured
    told = rounds_told(card)
    try:
        if told is None:
            return {"1": cached_first_turn(hub)} if hub else {}
        return {str(len(told.rounds) + 1): _advice_of_check(told, hub)}
    except ConemodelError:
        return {}


def _advice_of_check(told: Readings, hub: Scenario | None) -> TurnAdvice:
    diagnosis = cached_diagnosis(told, hub)
    line, move = diagnosis.headline.line, diagnosis.move
    minutes = round(MINUTE.from_si(move.angle)) if move else 0
    act = act_words(move)[1:] if move else ""  # its first letter is small where it comes after a measurement
    if move is None or not minutes or act not in line:
        return TurnAdvice(words=line[:LONGEST_ADVICE])
    on_clock = act.replace(f"{abs(DEG.from_si(move.angle)):.0f}°", turn_size(minutes))
    return TurnAdvice(words=line.replace(act, on_clock)[:LONGEST_ADVICE], minutes=minutes)
