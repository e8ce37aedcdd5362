"""A measured hub goes on the card in hand, and from there to the next job of the same wheel."""

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.base.units import MINUTE, MM
from conemodel.parts.library import SCENARIOS
from conemodel.parts.measured_hub import Mark, MeasuredHub
from conemodel.record.cards import all_cards, answer, begin_card, find_card
from conemodel.record.database import Database
from conemodel.tasks.job_card.card import Place
from conemodel.tasks.job_card.measured import read_measured
from conemodel.tasks.job_card.steps import STEPS
from conemodel.ui.job_card.hub_in_hand import hub_as_measured, hub_of
from conemodel.ui.real_hub.next_entry import MEASURED
from conemodel.ui.visit import CARD, CARD_IN_HAND
from tests.patience import PATIENCE

READ = MeasuredHub(
    first=Mark(
        count=MINUTE.to_si(15),
        nut_loose=(MM.to_si(0.24),),
        locked=(MM.to_si(0.15),),
        clamped=(MM.to_si(0.10),),
    )
)


def _script() -> None:
    from conemodel.ui.real_hub import measure

    measure.page()


def opened(card_id: str | None, *, in_address: str = "", read: MeasuredHub = READ) -> AppTest:
    app = AppTest.from_function(_script, default_timeout=PATIENCE)
    app.session_state[f"own_{MEASURED.what}"] = read
    if in_address:
        app.query_params[CARD] = in_address
    if card_id:
        app.session_state[CARD_IN_HAND] = card_id
    return app.run()


def labels(app: AppTest) -> list[str]:
    return [button.label for button in app.button if button.label.startswith("Put it on")]


def test_without_a_card_in_hand_none_is_named() -> None:
    assert labels(opened("deleted since")) == []


def test_without_a_card_in_hand_a_new_one_takes_what_was_measured(database: Database) -> None:
    app = opened(None)
    assert labels(app) == []
    app.button(key="measured_to_new").click().run()
    assert not app.exception
    card = find_card(app.session_state[CARD_IN_HAND], database)
    assert read_measured(card.text("measured"))
    assert any("It stands on the card without a tag" in each.value for each in app.markdown)
    assert not [button for button in app.button if button.key == "measured_to_new"]


def test_a_card_that_holds_a_measurement_opens_it_again(database: Database) -> None:
    opened(None).button(key="measured_to_new").click().run()
    other = begin_card(database)
    (holds,) = (card for card in all_cards(database) if card.id != other.id)

    def measure_again() -> None:
        import streamlit as st

        from conemodel.record.cards import find_card
        from conemodel.record.database import Database
        from conemodel.ui.real_hub.to_card import read_for

        for card_id in st.session_state.wanted:
            read_for(find_card(card_id, Database()))

    app = AppTest.from_function(measure_again, default_timeout=PATIENCE)
    for wanted, read in (([holds.id], READ), ([other.id], MeasuredHub()), ([holds.id], READ)):
        app.session_state["wanted"] = wanted
        app.run()
        assert not app.exception
        assert app.session_state[f"own_{MEASURED.what}"] == read


def test_a_reload_goes_on_with_the_card_that_the_address_names(database: Database) -> None:
    card = begin_card(database)
    answer(card.id, {Place("tag"): "A 7"}, database)
    before = opened(card.id)
    assert before.query_params[CARD] == card.id
    reloaded = opened(None, in_address=card.id)
    assert labels(reloaded) == labels(before) == ["Put it on the card of tag A 7"]
    reloaded.button(key="measured_to_card").click().run()
    assert find_card(card.id, database).answer("measured")


def test_readings_stay_with_their_card_after_a_reload_though_another_is_opened(database: Database) -> None:
    theirs, other = begin_card(database), begin_card(database)
    answer(theirs.id, {Place("tag"): "A 7"}, database)
    app = opened(None, in_address=theirs.id)
    app.session_state[CARD_IN_HAND] = other.id
    assert labels(app.run()) == ["Put it on the card of tag A 7"]


def test_before_the_first_reading_it_is_for_the_card_in_hand(database: Database) -> None:
    first, then = begin_card(database), begin_card(database)
    answer(then.id, {Place("tag"): "8"}, database)
    app = opened(None, in_address=first.id, read=MeasuredHub())
    del app.query_params[CARD]  # as when one comes back to the page by the menu
    app.run()
    assert "For the card without a tag." in [each.value for each in app.caption]
    app.session_state[CARD_IN_HAND] = then.id
    app.run()
    assert app.query_params[CARD] == then.id
    assert "For the card of tag 8." in [each.value for each in app.caption]


@pytest.mark.parametrize("damaged", ["nope", "*a* <b>"])
def test_a_card_the_address_names_in_vain_is_said_and_loses_nothing(damaged: str, database: Database) -> None:
    app = opened(None, in_address=damaged)
    assert not app.exception
    assert labels(app) == []
    (said,) = (each.value for each in app.warning if "card" in each.value)
    assert said.startswith("This card is not in the record: it was deleted, or the address is cut short.")
    assert any("Every reading" in each.label for each in app.expander)
    card = begin_card(database)
    app.session_state[CARD_IN_HAND] = card.id
    assert labels(app.run()) == ["Put it on the card without a tag"]


def test_a_turn_that_was_made_stands_on_the_card_as_made(database: Database) -> None:
    card = begin_card(database)
    opened(card.id).button(key="measured_to_card").click().run()
    assert "in (clockwise) from the pen line" in find_card(card.id, database).text("advice", "1")
    app = opened(card.id, read=READ.replace(second=Mark(count=MINUTE.to_si(9))))
    assert "Turned: the cone is at 9" in " ".join(each.proto.body for each in app.get("html"))
    app.button(key="measured_to_card").click().run()
    kept = find_card(card.id, database)
    assert "the turn is made, to 9 minutes out of finger contact" in kept.text("advice", "1")
    assert "advised" not in STEPS["measured"].said(kept.answer("measured"))


def test_what_was_measured_goes_on_the_card_and_into_its_hub(database: Database) -> None:
    card = begin_card(database)
    hub = (SCENARIOS / "touring-rear.toml").read_text(encoding="utf-8")
    answer(card.id, {Place("tag"): "A 7", Place("hub"): hub}, database)
    app = opened(card.id)
    assert labels(app) == ["Put it on the card of tag A 7"]
    app.button(key="measured_to_card").click().run()
    assert not app.exception
    assert labels(app) == []
    assert any("It stands on the card of tag A 7" in each.value for each in app.markdown)
    kept = find_card(card.id, database)
    assert "°) in (clockwise) from the pen line" in kept.text("advice", "1")
    assert "the clamp takes 0.05" in STEPS["measured"].said(kept.answer("measured"))
    measured, plain, known = read_measured(kept.text("measured")), hub_of(kept), hub_as_measured(kept)
    assert measured
    assert plain
    assert known
    assert known.axle.backlash == pytest.approx(measured.slack.value, rel=1e-6)
    low, high = known.axle.backlash_range
    assert low < measured.slack.low < measured.slack.high < high
    assert high - low < plain.axle.backlash_range[1] - plain.axle.backlash_range[0]


def test_readings_for_no_card_wait_while_a_card_opens_its_own(database: Database) -> None:
    opened(None).button(key="measured_to_new").click().run()
    (holds,) = all_cards(database)
    unowned = READ.replace(first=READ.first.replace(clamped=()))

    def page_of_card() -> None:
        import streamlit as st

        from conemodel.record.cards import find_card
        from conemodel.record.database import Database
        from conemodel.ui.real_hub import measure
        from conemodel.ui.real_hub.to_card import read_for

        if wanted := st.session_state.pop("wanted", ""):
            read_for(find_card(wanted, Database()))
        measure.page()

    app = AppTest.from_function(page_of_card, default_timeout=PATIENCE)
    app.session_state["wanted"], app.session_state[f"own_{MEASURED.what}"] = holds.id, unowned
    app.run()
    assert app.session_state[f"own_{MEASURED.what}"] == READ
    (back,) = (button for button in app.button if button.label == "Back to the readings without a card")
    back.click().run()
    assert app.session_state[f"own_{MEASURED.what}"] == unowned
    assert CARD not in app.query_params
