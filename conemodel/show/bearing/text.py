"""What the races and the hands feel as text for a terminal."""

from collections.abc import Sequence

from conemodel.base.plain_text import one_line
from conemodel.base.units import MM
from conemodel.show.bearing.race_charts import mix_words
from conemodel.show.bearing.tables import list_checks, list_races, list_torque_parts
from conemodel.show.formatting import play_words
from conemodel.show.setting.text import CAUTION, paragraph
from conemodel.show.tables import table_text
from conemodel.tasks.bearing.fatigue_life import WHAT_LIFE_SAYS
from conemodel.tasks.bearing.feel_when_turned import Signature
from conemodel.tasks.bearing.load_cases import CASES
from conemodel.tasks.bearing.race_sweep import RacesSweep
from conemodel.tasks.bearing.spin_down import WHY_SPIN_PROVES_NOTHING
from conemodel.tasks.setting.defects import Defect
from conemodel.tasks.validation.published_check import STATUS_WORDS, PublishedCheck

UNTROUBLED = "Nothing is wrong with this hub that the cone could not put right."


def races_text(races: RacesSweep) -> str:
    """Return a sweep of the races as a table, with notes on what its columns leave out."""
    loads = "; ".join(f"{case}: {CASES[case]}" for case in races.worst)
    life = races.life
    said = (
        f"MPa: worst peak pressure on a race, clamped ({loads}). At 4200 MPa a dent stays that can be felt. Drag: the "
        "wheel turned in the stand at a turn a second, up to what it is if the balls' spin makes all it may. "
        f"Life: share of the best of this hub, {mix_words(life)}.",
        WHAT_LIFE_SAYS,
        WHY_SPIN_PROVES_NOTHING,
    )
    return "\n\n".join((table_text(list_races(races)), *(paragraph(words) for words in said)))


def feel_text(name: str, stage: str, found: Signature, troubles: Sequence[Defect]) -> str:
    """Return what a hand finds that turns a hub, with the numbers it rests on."""
    said = [f"- {word}: {reason}" for word, reason in zip(found.words, found.reasons, strict=True)]
    low, high = (MM.from_si(play) for play in found.rim_play)
    play = f"{low:.2f} mm" if high - low < 5e-3 else f"{low:.2f} to {high:.2f} mm, as the wheel is turned"
    left, right = found.ball_room
    return "\n\n".join(
        (
            f"{one_line(name)}: {stage.lower()}, {play_words(found.end_play, unit=' mm')}",
            "\n".join(paragraph(line) for line in said),
            table_text(list_torque_parts(found)),
            f"Free play at the rim {play}. Room left in the rows: {left:.1f} and {right:.1f} ball widths.",
            "\n".join(paragraph(f"- {each.what} {each.cure}") for each in troubles) or UNTROUBLED,
            paragraph(CAUTION),
        )
    )


def checks_text(checks: Sequence[PublishedCheck]) -> str:
    """Return published values beside the computed ones as a table."""
    known = "; ".join(f"{status}: {words}" for status, words in STATUS_WORDS.items())
    count = sum(each.holds for each in checks)
    return f"{table_text(list_checks(checks))}\n\n{count} of {len(checks)} hold. Known: {known}."
