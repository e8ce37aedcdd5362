"""The close view: one ball between cup and cone, the cone on its thread, washer, spacer and locknut beside it."""

from collections.abc import Iterator
from dataclasses import dataclass

from conemodel.show.instrument import bearing
from conemodel.show.instrument.drawing import Box, Group, Label, Part, Plate, Point
from conemodel.show.instrument.measures import Half
from conemodel.show.instrument.paths import Place, arc, block, wave
from conemodel.show.instrument.thread import Thread

FLAT = 0.42
"""How thick cone and nut are drawn behind their teeth, before the break between the two scales [mm]."""
BREAK = 0.34
"""Width of that break [mm]."""
STANDS_OFF = 1.2
"""How far a locknut that is run back stands from its washer [mm drawn]."""
REACH = 7.4 / 6.35
"""How far the view reaches inboard of the ball's middle [ball diameters]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What a close view is drawn from.

    Attributes:
        half: the adjustable side; place: where it stands on the plate; thread: as drawn.
        factor: how many times larger movement is drawn; shortens: how far the clamp pulls the axle's end in [mm].
        most: furthest out the cone is ever turned [mm of end play]; force: of the clamp in words.
        good: the good range, clamped, tight and loose edge [mm], or None where it may not be seen.
    """

    half: Half
    place: Place
    thread: Thread
    factor: int
    shortens: float
    most: float
    force: str
    good: tuple[float, float] | None

    def out(self, mm: float) -> float:
        """Return what moves by `mm` outboard for each unit, as it moves along x."""
        return self.place.out * mm

    @property
    def with_cone(self) -> dict[str, float]:
        """How what the cone carries moves."""
        return {"cone": self.out(self.factor)}

    @property
    def with_wheel(self) -> dict[str, float]:
        """How what the wheel carries moves."""
        return {"rocked": self.out(self.factor)}

    @property
    def travel(self) -> tuple[float, float]:
        """How far inboard and outboard the cone may be drawn [mm]."""
        return 0.25 * self.factor + self.thread.pitch, self.most * self.factor + 2 * self.thread.pitch


def close_plate(setting: Setting) -> Plate:
    """Return the close view."""
    half, view = setting.half, _view(setting)
    groups = [
        _wheel(setting),
        *_gap(setting),
        _ball(setting),
        *_cone(setting),
        *_stack(setting),
        *_nut(setting),
        _axle(setting, view),
        *_key(setting),
        *_signs(setting),
    ]
    left = max(half.nut[1] - 3.0, 2.2 * half.ball)
    narrow_width = left + 1.04 * half.ball
    narrow = (-left if setting.place.out < 0 else left - narrow_width, view[1], narrow_width, view[3])
    return Plate(
        view=view,
        narrow=narrow,
        groups=tuple(groups),
        labels=tuple(_labels(setting)),
    )


def _view(setting: Setting) -> Box:
    """Return what is seen: out to the locknut of a cone a quarter turn out, in past the ball."""
    half = setting.half
    outboard = half.nut[1] + 5.7
    width, top = outboard + REACH * half.ball, half.cup_outer + 0.35 * half.ball
    bottom = half.thread - 2.64
    return (-outboard if setting.place.out < 0 else outboard - width, -top, width, top - bottom)


def _wheel(setting: Setting) -> Group:
    """Return shell, dust cap and cup: what turns with the wheel."""
    half, place = setting.half, setting.place
    far, bore, home = -2.2 * half.ball, bearing.shell_bore(half), bearing.cup_home(half)
    end, high = bearing.shell_end(half), half.shell_outer + 6
    shell: list[Point] = [
        (end, half.cup_outer),
        (home, half.cup_outer),
        (home, bore),
        (far, bore),
        (far, high),
        (end, high),
    ]
    return Group(
        name="wheel",
        move=setting.with_wheel,
        parts=(
            place.part("shell", shell, "shell", title="hub shell"),
            place.part("dust-cap", bearing.dust_cap(half), "cap", title="dust cap"),
            place.part("cup", bearing.cup_outline(half), "cup", title="cup"),
        ),
    )


def _gap(setting: Setting) -> Iterator[Group]:
    """Yield the tint of the gap: a band carried by the cone, covered by ball and cone but for what is open."""
    half, place = setting.half, setting.place
    u, v = half.contact
    far = setting.most * setting.factor + half.ball
    low, high = v - 0.1 * half.ball, v + 0.11 * half.ball
    clip = place.path(block((0.0, low - 1), (far + half.ball, high + 1)))
    band = place.part("gap", block((u - far, low), (u + 0.2 * half.ball, high)), "gap")
    yield Group(name="gap", clip=clip)
    yield Group(name="gap band", parent="gap", move=setting.with_cone, parts=(band,))


def _ball(setting: Setting) -> Group:
    half, place = setting.half, setting.place
    gloss = arc((0.0, half.pitch), 0.4 * half.ball, 28, 70, steps=8)
    return Group(
        name="ball",
        move=setting.with_wheel,
        parts=(
            place.part("ball", bearing.ball_outline(half), "ball", title="ball"),
            place.part("gloss", gloss, "gloss", closed=False),
        ),
    )


def _cone(setting: Setting) -> Iterator[Group]:
    """Yield the cone: its body, and cut out of the comb of its thread what its bore holds."""
    half, place, thread = setting.half, setting.place, setting.thread
    top = bearing.cone_top(half)
    start, end = max(half.threaded, half.nose), top[-1][0]
    above = thread.bore + FLAT + BREAK
    bottom = wave(end, start, above)
    if start > half.nose + 0.1:  # bored out wider inboard of its thread
        bottom += [(start, thread.bore + 0.4), (half.nose, thread.bore + 0.4)]
    yield Group(
        name="cone",
        move=setting.with_cone,
        parts=(
            place.part("cone", [*top, *bottom], "cone", title="cone"),
            place.part("race", bearing.cone_race(half), "edge", closed=False),
        ),
    )
    yield from _threaded(setting, "cone", start, end, paint="thread-cone")


def _threaded(setting: Setting, name: str, start: float, end: float, *, paint: str) -> Iterator[Group]:
    """Yield the threaded inside of cone or nut: the comb, what carries on it, and its ends."""
    place, thread, out = setting.place, setting.thread, setting.out
    v = thread.bore
    inboard, outboard = setting.travel
    flank, slack = f"{name}_flank", thread.slack / 2
    clip = place.path(block((start, thread.root - 0.5), (end, v + FLAT + BREAK)))
    back = [(start, v - 0.02), (end, v - 0.02), *wave(end, start, v + FLAT)]
    yield Group(name=f"{name} bore", parent=name, clip=clip, parts=(place.part(f"{name}-bore", back, paint),))
    teeth = thread.comb(start - inboard, end + outboard)
    still = {"cone": -out(setting.factor), "clamp": -out(setting.factor * setting.shortens)}
    line = [point for tooth in teeth for point in tooth]
    if name == "nut":
        still |= {"off": -out(STANDS_OFF)}
    yield Group(
        name=f"{name} thread",
        parent=f"{name} bore",
        move={**still, flank: -out(slack)},
        parts=(
            Part(
                name=f"{name}-teeth",
                d="".join(map(place.path, teeth)),
                paint=paint,
                title=f"thread of the {name}",
            ),
            place.part(f"{name}-profile", line, "edge", closed=False),
        ),
    )
    yield from _carrying(setting, name, (start - inboard, end + outboard))
    yield Group(name=f"{name} ends", parent=name, parts=_ends(setting, name, start, end))


def _carrying(setting: Setting, name: str, span: tuple[float, float]) -> Iterator[Group]:
    """Yield the flanks that carry: the ball pushes the cone out, the nut pushes it in and is itself pushed out."""
    place, thread = setting.place, setting.thread
    tight = ("locked", "clamped", "ridden")
    loads = (
        [("ball pushes out", True, ("contact",), None), ("nut pushes in", False, tight, "nut")]
        if name == "cone"
        else [("cone pushes the nut out", True, tight, "nut")]
    )
    for words, outer, when, fade in loads:
        marks = place.strokes("carries", thread.flanks(*span, outer=outer), "carries", title=words)
        yield Group(name=words, parent=f"{name} thread", parts=(marks,), when=when, fade=fade)


def _ends(setting: Setting, name: str, start: float, end: float) -> tuple[Part, ...]:
    """Return the ends of a thread: countersunk, so that no tooth ends in a splinter, and the break above it."""
    place, thread = setting.place, setting.thread
    v = thread.bore
    deep = v - thread.tip + 0.2
    parts = [
        place.strokes(f"{name}-faces", [[(u, v + FLAT), (u, v + 0.1)] for u in (start, end)], "edge"),
        place.part(f"{name}-break", wave(end, start, v + FLAT), "thin", closed=False),
    ]
    for u, way in ((start, 1), (end, -1)):
        sunk = [(u, v + 0.1), (u + way * deep, v + 0.1 - deep), (u, v + 0.1 - deep)]
        parts.append(place.part("countersink", sunk, "clear"))
        parts.append(place.part("countersink-edge", sunk[:2], "edge", closed=False))
    return tuple(parts)


def _stack(setting: Setting) -> Iterator[Group]:
    """Yield washer and spacer between cone and locknut; they stand apart while the nut is run back."""
    half, place = setting.half, setting.place
    inner, middle, outer = half.stack
    bore = setting.thread.bore + 0.22
    if middle > inner:
        washer = place.part(
            "washer", block((inner, bore), (middle, half.washer)), "washer", title=_washer(half)
        )
        yield _standing_off(setting, "washer", 0.2, (washer,))
    if outer > middle + 0.05:
        spacer = place.part("spacer", block((middle, bore), (outer, half.spacer)), "spacer", title="spacer")
        yield _standing_off(setting, "spacer", 0.6, (spacer,))


def _washer(half: Half) -> str:
    return "keyed washer" if half.keyed else "washer"


def _standing_off(setting: Setting, name: str, share: float, parts: tuple[Part, ...]) -> Group:
    """Return a group of the stack that stands off by a share of what the nut does."""
    move = {**setting.with_cone, "off": setting.out(share * STANDS_OFF)}
    return Group(name=name, move=move, parts=parts)


def _nut(setting: Setting) -> Iterator[Group]:
    half, place, thread = setting.half, setting.place, setting.thread
    start, end = half.nut
    above = thread.bore + FLAT + BREAK
    body = [(start, half.washer - 0.3), (start + 0.3, half.washer), (end - 0.5, half.washer)]
    body += [(end, half.washer - 0.5), *wave(end, start, above)]
    yield _standing_off(setting, "nut", 1.0, (place.part("locknut", body, "nut", title="locknut"),))
    yield from _threaded(setting, "nut", start, end, paint="thread-nut")


def _axle(setting: Setting, view: Box) -> Group:
    """Return the axle: it reaches past the view, teeth and all, and moves in as the clamp shortens it."""
    half, place, thread = setting.half, setting.place, setting.thread
    ends = sorted(place.out * x for x in (view[0], view[0] + view[2]))
    start, end = ends[0] - 2 * thread.pitch, ends[1] + 2 * thread.pitch
    low = half.bore if half.bore else half.thread - 3.4
    body = [(start, low), *thread.axle_teeth(start, end), (end, low)]
    return Group(
        name="axle",
        move={"clamp": -setting.out(setting.factor * setting.shortens)},
        parts=(place.part("axle", body, "axle", title="axle"),),
    )


def _key(setting: Setting) -> Iterator[Group]:
    """Yield the washer's key in the keyway along the axle."""
    half, place, thread = setting.half, setting.place, setting.thread
    inner, middle, _ = half.stack
    if not half.keyed or middle <= inner:
        return
    floor = thread.root + 0.1
    room, top = 0.28, thread.bore + 0.22
    way = block((inner - room, floor - 0.15), (middle + room, top))
    tab = [(inner, top), (inner, floor), (middle, floor), (middle, top)]
    parts = (
        place.part("keyway", way, "clear", title="keyway"),
        place.part("keyway-edge", way, "thin", closed=False),
        place.part("key", [*tab, (middle, top + 0.3), (inner, top + 0.3)], "key", title="key of the washer"),
        place.part("key-edge", tab, "edge", closed=False),
    )
    yield _standing_off(setting, "key", 0.2, parts)


def _signs(setting: Setting) -> Iterator[Group]:
    """Yield what is no part: where balls touch, how wide the gap is, where the race stood and should, the force."""
    half, place = setting.half, setting.place
    yield from _contact(setting)
    u, v = half.contact
    head = 0.1 * half.ball
    arrow = [(u, v), (u + head, v - 0.55 * head), (u + head, v + 0.55 * head)]
    yield Group(
        name="gap at ball",
        move=setting.with_wheel,
        fade="open",
        parts=(place.part("gap-head", arrow, "gives"),),
    )
    arrow = [(2 * u - x, y) for x, y in arrow]
    yield Group(
        name="gap at cone",
        move=setting.with_cone,
        fade="open",
        parts=(place.part("gap-head", arrow, "gives"),),
    )
    race = place.part("before", bearing.cone_race(half), "before", closed=False)
    for stage, when in (("backed_off", ("locked", "clamped", "ridden")), ("locked", ("clamped", "ridden"))):
        yield Group(
            name=f"was {stage}", move={f"at_{stage}": setting.out(setting.factor)}, when=when, parts=(race,)
        )
    if setting.good is not None:
        yield Group(name="should stand", parts=(_should_stand(setting, setting.good),))
    yield _force(setting)


def _contact(setting: Setting) -> Iterator[Group]:
    """Yield what shows that the ball touches: its line of contact, and where it bears on cup and cone."""
    half, place = setting.half, setting.place
    race = bearing.cone_race(half)
    at = race.index(min(race, key=lambda p: abs(p[0] - half.contact[0]) + abs(p[1] - half.contact[1])))
    yield Group(
        name="touches cone",
        move=setting.with_cone,
        fade="touch",
        parts=(place.part("touches", race[max(at - 3, 0) : at + 4], "touches", closed=False),),
    )
    ball = bearing.ball_outline(half)
    half_way = len(ball) // 2
    yield Group(
        name="touches cup",
        move=setting.with_wheel,
        fade="touch",
        parts=(
            place.part("line-of-contact", (half.cup_contact, half.contact), "axis", closed=False),
            place.part("touches", ball[half_way - 2 : half_way + 3], "touches", closed=False),
        ),
    )


def _should_stand(setting: Setting, good: tuple[float, float]) -> Part:
    """Return the room the race has in the good range, where it meets the ball."""
    half = setting.half
    near = [p for p in bearing.cone_race(half) if abs(p[0] - half.contact[0]) < 0.2 * half.ball]
    tight, loose = (setting.factor * edge for edge in good)
    outline = [*((u + tight, v) for u, v in near), *((u + loose, v) for u, v in reversed(near))]
    return setting.place.part("should-stand", outline, "good", title="the race should stand here")


def _force(setting: Setting) -> Group:
    """Return the arrow of the clamp's force on the locknut."""
    half, place = setting.half, setting.place
    u, v = half.nut[1] + 0.15, (half.thread + half.washer) / 2 + 0.4
    arrow = [(u, v), (u + 0.5, v + 0.28), (u + 0.5, v + 0.1), (u + 1.9, v + 0.1)]
    arrow += [(x, 2 * v - y) for x, y in reversed(arrow[1:])]
    return Group(
        name="clamp force",
        move=setting.with_cone,
        fade="clamp",
        parts=(place.part("force", arrow, "takes", title="force of the clamp"),),
    )


def _labels(setting: Setting) -> Iterator[Label]:
    """Yield the names of the parts, each beside or on its own."""
    half, place = setting.half, setting.place
    k, point = half.scale, place.point
    inner, middle, outer = half.stack
    away = "end" if place.out < 0 else "start"
    yield Label(
        text="hub shell", at=point((bearing.shell_end(half) + 0.5, half.cup_outer + 1.5 * k)), anchor=away
    )
    yield Label(
        text="dust cap", at=point((bearing.shell_end(half) + 0.1, half.cup_outer - 2.6 * k)), anchor=away
    )
    yield Label(text="cup", at=point((-4.1 * k, half.cup_outer - 2 * k)), group="wheel")
    yield Label(text="ball", at=point((-0.9 * k, half.pitch - 0.8 * k)), group="ball")
    yield Label(
        text="cone",
        at=point(((bearing.shoulder_of(half) + half.cone_end) / 2, half.neck + 0.4)),
        group="cone",
    )
    if middle > inner:
        top = ((inner + middle) / 2, half.washer)
        at = point((top[0], half.washer + 1.1))
        yield Label(text=_washer(half), at=at, group="washer", leader=point(top))
    if outer > middle + 2.5:
        yield Label(text="spacer", at=point(((middle + outer) / 2, half.spacer + 0.4)), group="spacer")
    yield Label(text="locknut", at=point((sum(half.nut) / 2, half.washer + 0.4)), group="nut")
    yield Label(text="axle", at=point((-4.9 * k, (half.bore + setting.thread.root) / 2 - 0.2)))
    force = point((half.nut[1] + 1.1, (half.thread + half.washer) / 2 + 1.1))
    yield Label(text=setting.force, at=force, group="clamp force")
