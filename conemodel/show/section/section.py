"""The hub in section, drawn to scale, with movement enlarged by a stated factor."""

from collections.abc import Iterator
from math import floor, log10

from conemodel.base.units import MM, NEWTON
from conemodel.parts.scenario import Scenario
from conemodel.show.formatting import STAGE_WORDS, millimetres, newtons
from conemodel.show.palette import tones
from conemodel.show.section.paint import draw_section
from conemodel.show.section.view import SAME, Told, View
from conemodel.tasks.setting.predict import Prediction

GAP, PINCH = 4.0, 2.5
"""How wide a gap, and how deep a pinch, is drawn at most [mm on the hub]; the stage before may be twice that."""
MOST = 200.0
"""No movement is drawn larger than this many times."""


def exaggeration_for(prediction: Prediction, stage: str) -> float:
    """Return the factor that enlarges the cone's movement at a stage: 1, 2 or 5 times a power of ten.

    It is the largest at which this stage and the one before it still fit the drawing.
    """
    names = list(prediction.stages)
    at = names.index(stage)
    now, before = (MM.from_si(prediction.stages[names[i]].end_play) for i in (at, max(at - 1, 0)))
    wanted = [MOST, _room(now) / max(abs(now), 1e-9), 2 * _room(before) / max(abs(before), 1e-9)]
    return _rounded(min(wanted))


def _room(end_play: float) -> float:
    return GAP if end_play > 0 else PINCH


def _rounded(value: float) -> float:
    """Return the largest of 1, 2, 5, 10, … that is not above a value, at least 1."""
    power = 10.0 ** floor(log10(max(value, 1.0)))
    return power * max(step for step in (1.0, 2.0, 5.0) if step * power <= max(value, 1.0) * (1 + 1e-9))


def hub_section_svg(
    prediction: Prediction,
    *,
    stage: str,
    exaggeration: float | None = None,
    dark: bool = False,
    compact: bool = False,
    close: bool = False,
) -> str:
    """Return the hub in section at a stage, as SVG.

    Args:
        prediction: the hub and its stages.
        stage: one of its names.
        exaggeration: how many times larger the cone's movement is drawn; found by `exaggeration_for` if None.
        dark: for a dark ground.
        compact: the adjustable side only, for a screen of 390 px.
        close: only the bearing that is adjusted, below the axle, for where its words stand beside it; the factor
            must be among them.
    """
    names = list(prediction.stages)
    now = prediction.stages[stage]
    earlier = names[names.index(stage) - 1] if names.index(stage) else None
    view = View(
        scenario=prediction.scenario,
        stage=stage,
        end_play=now.end_play,
        before=prediction.stages[earlier].end_play if earlier else None,
        preload=now.preload,
        exaggeration=exaggeration or exaggeration_for(prediction, stage),
        compact=compact or close,
        tones=tones(dark=dark),
    )
    told = _caption_of(view, prediction)
    sheet = draw_section(view, told, close=close)
    return sheet.svg(
        title=f"{prediction.scenario.name}: {STAGE_WORDS[stage].lower()}",
        desc=" ".join(words for words, _, _ in told)
        + " Section through the hub, to scale but for that movement; the form of shell, cup and cone is schematic.",
        stage=stage,
        scale=f"{sheet.scale:.9g}",
        exaggeration=f"{view.exaggeration:g}",
        adjustable=view.adjustable,
    )


def hub_parts_svg(scenario: Scenario, dark: bool = False, *, compact: bool = False) -> str:
    """Return the hub with the name of every part, nothing moved, as SVG."""
    view = View(
        scenario=scenario,
        stage="clamped",
        end_play=0.0,
        before=None,
        preload=0.0,
        exaggeration=1.0,
        compact=compact,
        tones=tones(dark=dark),
    )
    told = (
        "The cones are screwed on the axle and stand still; cups, balls and shell turn with the wheel.",
        False,
        "",
    )
    sheet = draw_section(view, [told], names_only=True)
    return sheet.svg(
        title=f"{scenario.name}: the parts",
        desc="Section through a hub with the names of its parts: axle, cones, balls, cups, shell, dust caps, washers, "
        "locknuts, dropouts and what clamps them.",
        stage="parts",
        scale=f"{sheet.scale:.9g}",
        exaggeration="1",
        adjustable=view.adjustable,
    )


def _caption_of(view: View, prediction: Prediction) -> list[Told]:
    """Return the caption: words, whether in bold, colour."""
    lines = [(f"{STAGE_WORDS[view.stage]}: {_state(view)}.", True, "")]
    if view.clamped:
        lines += _on_the_clamp(view, prediction)
    if view.stage == "ridden":
        load = NEWTON.from_si(view.scenario.wheel.radial_load)
        lines.append((f"The road pushes up with {load:.0f} N: the balls below the axle carry it.", False, ""))
    if view.before is not None and abs(view.before - view.end_play) > SAME:
        way = "out" if view.end_play > view.before else "in"
        moved = millimetres(abs(view.end_play - view.before))
        lines.append((f"Dashed: where the cone stood before; it moved {way} by {moved}.", False, ""))
    factor = f"The cone's movement is drawn {view.exaggeration:g} times larger; all else to scale."
    return [*lines, (factor, False, "")]


def _on_the_clamp(view: View, prediction: Prediction) -> Iterator[Told]:
    """Yield the caption of the clamp, a warning first where it does not hold the frame."""
    clamp = prediction.clamp
    if clamp.proud:
        out = " and ".join(
            f"{side} {MM.from_si(view.scenario.stack.side(side).protrusion):g} mm" for side in clamp.proud
        )
        thick = MM.from_si(view.scenario.frame.dropout_thickness)
        warning = (
            f"Do not ride: proud axle. It stands out {out}, the dropout is {thick:g} mm thick, so the clamp squeezes "
            "the axle and not the frame."
        )
        yield warning, True, view.tones.forbidden
    yield f"Clamp force {newtons(clamp.force)}{', assumed' if clamp.assumed else ''}.", False, ""


def _state(view: View) -> str:
    """Return the state of the contact between balls and cone: free play, just touching or preload."""
    if view.end_play > 0:
        return f"{millimetres(view.end_play)} of free play"
    return (
        f"no free play, balls pinched with {newtons(view.preload)}" if view.end_play < 0 else "just touching"
    )
