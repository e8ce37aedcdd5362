"""The close view: one ball between cup and cone, the cone on its thread, washer, spacer and locknut beside it."""

from conemodel.show.instrument import bearing
from conemodel.show.instrument.close_up import CloseUp
from conemodel.show.instrument.drawing import Group, Plate, Point
from conemodel.show.instrument.names import close_labels
from conemodel.show.instrument.paths import arc
from conemodel.show.instrument.signs import gap_groups, sign_groups
from conemodel.show.instrument.stack import cone_groups, key_groups, nut_groups, stack_groups


def close_plate(close: CloseUp) -> Plate:
    """Return the close view."""
    half, view = close.half, close.view
    groups = [
        _wheel(close),
        *gap_groups(close),
        _ball(close),
        *cone_groups(close),
        *stack_groups(close),
        *nut_groups(close),
        _axle(close),
        *key_groups(close),
        *sign_groups(close),
    ]
    left = half.nut[1] + 4.6
    narrow_width = left + max(1.04 * half.ball, 0.31 * half.ball + 4.1)  # room for words beside the rule
    narrow = (-left if close.place.out < 0 else left - narrow_width, view[1], narrow_width, view[3])
    return Plate(
        view=view,
        narrow=narrow,
        groups=tuple(groups),
        labels=tuple(close_labels(close)),
    )


def _wheel(close: CloseUp) -> Group:
    """Return shell, dust cap and cup: what turns with the wheel."""
    half, place = close.half, close.place
    far, bore, home = -2.2 * half.ball, bearing.shell_bore(half), bearing.cup_home(half)
    end, high, flange = bearing.shell_end(half), half.flange + 10, bearing.flange_at(half)
    shell: list[Point] = [
        (end, half.cup_outer),
        (home, half.cup_outer),
        (home, bore),
        (far, bore),
        (far, high),
    ]
    shell += [
        (flange, high),
        (flange, half.shell_outer),
        (end - 0.5, half.shell_outer),
        (end, half.shell_outer - 0.5),
    ]
    return Group(
        name="wheel",
        move=close.with_wheel,
        parts=(
            place.part("shell", shell, "shell", title="hub shell"),
            place.part("dust-cap", bearing.dust_cap(half), "cap", title="dust cap"),
            place.part("cup", bearing.cup_outline(half), "cup", title="cup"),
        ),
    )


def _ball(close: CloseUp) -> Group:
    half, place = close.half, close.place
    gloss = arc((0.0, half.pitch), 0.4 * half.ball, 28, 70, steps=8)
    return Group(
        name="ball",
        move=close.with_wheel,
        parts=(
            place.part("ball", bearing.ball_outline(half), "ball", title="ball"),
            place.part("gloss", gloss, "gloss", closed=False),
        ),
    )


def _axle(close: CloseUp) -> Group:
    """Return the axle: it reaches past the view, teeth and all, and moves in as the clamp shortens it."""
    half, place, thread = close.half, close.place, close.thread
    left, _, width, _ = close.view
    ends = sorted(place.out * x for x in (left, left + width))
    start, end = ends[0] - 2 * thread.pitch, ends[1] + 2 * thread.pitch
    low = half.bore if half.bore else half.thread - 3.4
    body = [(start, low), *thread.axle_teeth(start, end), (end, low)]
    return Group(
        name="axle",
        move={"clamp": -close.out(close.factor * close.shortens)},
        parts=(place.part("axle", body, "axle", title="axle"),),
    )
