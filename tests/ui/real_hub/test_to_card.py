"""A measured hub goes on the card in hand, and from there to the next job of the same wheel."""

import pytest
from streamlit.testing.v1 import AppTest

from conemodel.base.units import MINUTE, MM
from conemodel.parts.library import SCENARIOS
from conemodel.parts.measured_hub import Mark, MeasuredHub
from conemodel.record.cards import answer, begin_card, find_card
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


def test_without_a_card_in_hand_nothing_is_offered() -> None:
    assert labels(opened(None)) == labels(opened("deleted since")) == []


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
