"""A hand at a bench on a page of its own: by mouse, by a finger or by keys; and what eyes read off its picture.

Every way does the same acts, and none is told more of the hub than what is drawn.
"""

from abc import ABC, abstractmethod
from math import cos, radians, sin

from playwright.sync_api import Locator

from conemodel.base.units import DEG
from tests.browser.hands import END, SIDE
from tests.browser.own_bench import OwnBench
from tests.browser.pointer import Pointer
from tests.tasks.practice.inputs import By

SPANNER, TIGHT = 58.0, 100.0
"""Where the locknut's spanner points, loose and tight, clockwise from twelve [°]."""
BESIDE = 200.0
"""Where the cone's spanner is taken hold of, well away from the locknut's [°]."""
FAR, AT_THE_AXLE = 0.3, 0.05
"""How far from the axle a hand goes round it, in parts of the picture's lesser side."""
ROUND, ALONG = 61, 6
"""How far an axle is seen to go that is taken right round, and one that is only taken along [minutes of the clock]."""

TAPS, FRAMES = 10, 60
"""How often a finger taps a button that does nothing, and how many pictures it waits each time."""

PLACE = """canvas => {
    canvas.scrollIntoView({ block: 'nearest' });
    const { left, top, width, height } = canvas.getBoundingClientRect();
    const { e: x, f: y } = canvas.parentElement.querySelector('svg .parts').getScreenCTM();
    return { left, top, width, height, x, y };
}"""

TYRE = """() => {
    pass(600);
    const scale = host.shadowRoot.querySelector('.from-side svg .parts').getScreenCTM().a;
    const enlarged = Number([...written].join().match(/drawn ([0-9]+)×/)[1]);
    return fingers / scale / enlarged / 1000;
}"""
"""Where the fingers on the tyre are drawn a little later [m], by the scale that is written beside them."""


class Input(ABC):
    """A way to work the bench: each method is one gesture, which sends one act."""

    def __init__(self, own: OwnBench) -> None:
        self.own, self.page = own, own.page

    @abstractmethod
    def rock(self) -> float:
        """Push the rim one way and the other, and let go; how far the tyre was drawn to go between [m]."""

    @abstractmethod
    def twirl(self, *, again: bool = False) -> float:
        """Turn the axle right round, `again` a part of that; how far the hand was drawn ahead of it [rad]."""

    @abstractmethod
    def turn(self, out: float) -> None:
        """Turn the cone out by an angle [rad]."""

    @abstractmethod
    def undo(self) -> None:
        """Break the locknut loose."""

    @abstractmethod
    def tighten(self) -> None:
        """Pull the locknut tight with a firm hand."""

    @abstractmethod
    def throw_lever(self) -> None:
        """Close the lever, or open it."""

    @abstractmethod
    def lay_on(self, words: str, key: str) -> None:
        """Lay a hand on, or take it off: by what stands on it, or its letter."""

    def tyre(self) -> float:
        return float(self.page.evaluate(TYRE))


class Fingers(Input):
    """A mouse, or a finger: everything where it is drawn."""

    def __init__(self, own: OwnBench, *, touch: bool) -> None:
        super().__init__(own)
        self.touch, self.pointer = touch, Pointer(own.page, touch=touch)
        self.at = {"x": 0.0, "y": 0.0}

    def rock(self) -> float:
        box = self._box(SIDE)
        middle, y = box["left"] + box["width"] / 2, box["top"] + box["height"] / 4
        self._go(middle, y, press=True)
        ends = []
        for way in (-1, 1):
            self._go(middle + way * (box["width"] / 2 - 2), y)
            ends.append(self.tyre())
        self._lift(800)
        return ends[1] - ends[0]

    def twirl(self, *, again: bool = False) -> float:
        box = self._box(END)
        x, y, reach = box["x"], box["y"], min(box["width"], box["height"])
        stood = self._go(x, y - AT_THE_AXLE * reach, press=True)
        clock = gone = 0.0
        while gone < (ALONG if again else ROUND):
            clock += 20.0
            stands = self._round(x, y, FAR * reach, clock, wait=50)
            gone, stood = gone + (stands - stood + 30) % 60 - 30, stands
        lag = self.own.wait(200)[-1]
        self._lift(600)
        return lag

    def turn(self, out: float) -> None:
        self._pull(BESIDE, -DEG.from_si(out))

    def undo(self) -> None:
        self._pull(TIGHT, -60.0)

    def tighten(self) -> None:
        self._pull(SPANNER, 95.0)

    def throw_lever(self) -> None:
        self.page.locator(SIDE).scroll_into_view_if_needed()
        box = self.page.locator(".from-side .part.lever").bounding_box()
        assert box is not None
        x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        self._go(x, y, press=True)
        self._go(x, y - 60)
        self._lift()

    def lay_on(self, words: str, key: str) -> None:
        button = self.page.get_by_role("button", name=words, exact=True)
        if not self.touch:
            button.click()
            return
        # A tap that a busy machine draws out is a long press, which presses nothing: it is made again.
        for _ in range(TAPS):
            button.tap()
            if self.page.evaluate("frames => heard(frames)", FRAMES):
                return

    def _pull(self, start: float, turned: float) -> None:
        """Go round the axle from a place on the clock by so much clockwise [°]."""
        box = self._box(END)
        x, y, reach = box["x"], box["y"], min(box["width"], box["height"])
        steps = max(2, round(abs(turned) / 15))
        for step in range(steps + 1):
            self._round(x, y, FAR * reach, start + turned * step / steps, press=step == 0)
        self._lift()

    def _round(self, x: float, y: float, far: float, clock: float, **how: float) -> float:
        return self._go(x + far * sin(radians(clock)), y - far * cos(radians(clock)), **how)

    def _go(self, x: float, y: float, *, press: float = False, wait: float = 0) -> float:
        """Put the pointer down somewhere, or take it there, and let time pass [ms]; where the axle's mark is seen."""
        (self.pointer.press if press else self.pointer.move)(x, y)
        self.at = {"x": x, "y": y}
        return float(self.page.evaluate("arrival", {**self.at, "down": True, "wait": wait}))

    def _lift(self, wait: float = 0) -> None:
        self.pointer.lift()
        self.page.evaluate("arrival", {**self.at, "down": False, "wait": wait})

    def _box(self, picture: str) -> dict[str, float]:
        """Where a picture is in the window, and where the axle is drawn [px]."""
        return dict(self.page.locator(picture).evaluate(PLACE))


class Keys(Input):
    """Letters and arrows alone."""

    def rock(self) -> float:
        self._grip("Rim")
        ends = []
        for arrow in ("ArrowLeft", "ArrowRight"):
            self.page.keyboard.down(arrow)
            ends.append(self.tyre())
            self.page.keyboard.up(arrow)
        self.own.wait(1200)
        return ends[1] - ends[0]

    def twirl(self, *, again: bool = False) -> float:
        self._grip("Axle")
        self.page.keyboard.down("ArrowRight")
        lag = self.own.wait(500 if again else 2800)[-1]
        self.page.keyboard.up("ArrowRight")
        self.own.wait(600)
        return lag

    def turn(self, out: float) -> None:
        self._grip("Cone spanner")
        arrow = "ArrowLeft" if out > 0 else "ArrowRight"
        minutes, degrees = divmod(round(abs(DEG.from_si(out))), 6)
        for press, times in ((arrow, minutes), (f"Shift+{arrow}", degrees)):
            for _ in range(times):
                self.page.keyboard.press(press)
        self.own.wait(400)

    def undo(self) -> None:
        self.tighten()

    def tighten(self) -> None:
        self._grip("Locknut spanner").press("Enter")
        self.own.wait(1500)

    def throw_lever(self) -> None:
        self.page.locator(".hand.lever [role=slider]").press("Enter")
        self.own.wait(600)

    def lay_on(self, words: str, key: str) -> None:
        self._grip("Rim").press(key)

    def _grip(self, name: str) -> Locator:
        grip = self.page.get_by_role("slider", name=name, exact=True)
        grip.focus()
        return grip


def input_by(by: By, own: OwnBench) -> Input:
    return Keys(own) if by == "keys" else Fingers(own, touch=by == "touch")
