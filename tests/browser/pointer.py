"""What presses on a page: a mouse, or one finger by Chromium's own protocol."""

from playwright.sync_api import CDPSession, Page


class Pointer:
    """Mouse or finger; places in px of the window."""

    def __init__(self, page: Page, *, touch: bool) -> None:
        self.mouse = page.mouse
        self.cdp: CDPSession | None = page.context.new_cdp_session(page) if touch else None

    def press(self, x: float, y: float) -> None:
        if self.cdp:
            self._touch(self.cdp, "touchStart", x, y)
        else:
            self.mouse.move(x, y)
            self.mouse.down()

    def move(self, x: float, y: float) -> None:
        if self.cdp:
            self._touch(self.cdp, "touchMove", x, y)
        else:
            self.mouse.move(x, y)

    def lift(self) -> None:
        if self.cdp:
            self.cdp.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
        else:
            self.mouse.up()

    @staticmethod
    def _touch(cdp: CDPSession, kind: str, x: float, y: float) -> None:
        cdp.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": x, "y": y}]})
