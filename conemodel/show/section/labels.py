"""The names of a hub's parts around its section, and which way its cone is turned."""

from conemodel.parts.hub import Side
from conemodel.show.section.outline import Half
from conemodel.show.section.view import CAP, Halves, View, clamp_face, sign_of
from conemodel.show.svg import Point, Sheet


def write_names(sheet: Sheet, view: View, halves: Halves, *, names_only: bool) -> None:
    """Write the names of the parts: above the hub those of the bearing, below it those of axle and clamp."""
    half, sign = halves[view.adjustable], sign_of(view.adjustable)
    _heads(sheet, view)
    above = [
        ("locknut", (sign * sum(half.nut) / 2, half.face - 1)),
        ("washer", (sign * (half.cone[2] + half.nut[0]) / 2, half.washer - 1)),
        ("cone", (sign * (half.plane + half.ball), (half.thread + half.neck) / 2)),
        ("ball", (sign * half.plane, half.pitch + 0.2 * half.ball)),
        ("cup", (sign * (half.plane - 0.65 * half.ball), half.cup_outer - 1.5)),
        ("hub shell", (sign * (half.plane - 2.6 * half.ball), half.thread + 4.5)),
    ]
    if not view.compact:
        above.append(("dust cap", (sign * (half.shell_end - 0.4), half.cup_outer - 1.5)))
        above += _far_names(halves, -sign)
    sheet.labels(above, y=sheet.centre[1] - sheet.scale * half.flange - 0.8 * sheet.text_size, above=True)
    below = [*_below(view, half, sign), *([] if names_only else _finding(view, half, sign))]
    sheet.labels(below, y=sheet.centre[1] + sheet.scale * half.flange + 1.6 * sheet.text_size, above=False)


def _below(view: View, half: Half, sign: int) -> list[tuple[str, Point]]:
    """Return the names of axle, dropout and clamp; an axle that stands proud is called so."""
    names = [("axle", (sign * 0.3 * half.plane, -(half.thread + half.bore) / 2))]
    if not view.clamped:
        words = f"axle stands out {half.protrusion:g} mm" if half.protrusion else "axle end"
        return [*names, (words, (sign * (half.axle_end - 1), -half.thread + 1))]
    proud = view.scenario.clamp.traits.held_by_ends and half.protrusion >= half.dropout
    seat = _seat_words(view, view.adjustable)
    dropout = (sign * (half.nut[1] + half.dropout / 2), -half.face - 3)
    clamp = (sign * (clamp_face(view, half) + CAP / 2), -half.thread - 1)
    return [
        *names,
        (f"{seat}, not held" if proud and seat == "dropout" else seat, dropout),
        (view.scenario.clamp.traits.part, clamp),
    ]


def _seat_words(view: View, side: Side) -> str:
    """Return what the clamp presses on, on one side."""
    seat = view.scenario.setting.clamp_seat
    if seat == "dropouts" or (seat == "one side in frame" and side != view.adjustable):
        return "dropout"
    return "spacer"


def _far_names(halves: Halves, sign: int) -> list[tuple[str, Point]]:
    """Return the names on the side that is not adjusted."""
    half = halves["left" if sign < 0 else "right"]
    return [
        ("cone", (sign * (half.plane + half.ball), (half.thread + half.neck) / 2)),
        ("locknut", (sign * sum(half.nut) / 2, half.face - 1)),
    ]


def _finding(view: View, half: Half, sign: int) -> list[tuple[str, Point]]:
    """Return the name of what there is between ball and cone on the adjustable side."""
    u, v = half.contact(cone=True)
    if view.end_play > 0:
        words = "free play" if view.compact else "gap: free play"
        return [(words, (sign * (u + view.moved / 2), -v))]
    return [("pinched", (sign * half.plane, -half.pitch))] if view.end_play < 0 else []


def _heads(sheet: Sheet, view: View) -> None:
    """Write left and right, which side is adjusted, and which way its cone goes in."""
    size = sheet.text_size
    edges = {-1: (0.5 * size, "start"), 1: (sheet.width - 0.5 * size, "end")}
    for side in view.sides:
        place, anchor = edges[sign_of(side)]
        adjusted = side == view.adjustable
        words = f"{side}, {'adjustable' if adjusted else 'fixed'} side"
        sheet.text((place, 1.25 * size), words, anchor=anchor, bold=True, name="side")
        if adjusted:
            turn = "cone goes in (clockwise ↻)"
            words = f"{turn} →" if side == "left" else f"← {turn}"
            sheet.text((place, 2.6 * size), words, anchor=anchor, name="turning")
