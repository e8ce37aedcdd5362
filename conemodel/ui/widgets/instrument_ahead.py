"""What a hand waits for on letting go of the instrument, answered at an address of its own.

The frame answers a gesture by running the page, and its front end goes over all that is on it: long after a hand has
looked. The instrument asks here first, and tells its page of the hand once the answer can be seen.
"""

from collections.abc import Callable, Mapping
from math import isfinite
from threading import Lock
from typing import Any

from starlette.requests import Request
from starlette.responses import JSONResponse
from starlette.routing import Route

Exact = Callable[[float], Mapping[str, Any] | None]

MOST_HUBS = 256
"""Kept in mind; whose hub was shown longest ago is answered by its page."""

_PATH = "/conemodel/exact"
_shown: dict[str, Exact] = {}  # what was shown last stands last
_lock = Lock()


def answer_ahead(hub: str, exact: Exact) -> str:
    """Answer hands on an instrument from now on; return the address it asks at, to which it adds the angle [°].

    Args:
        hub: stands for the hub, wherever its cone is; fit for an address.
        exact: what is said with the cone at an angle [°], as `glance_json` gives it; None where nothing can be.
    """
    with _lock:
        _shown.pop(hub, None)
        _shown[hub] = exact
        while len(_shown) > MOST_HUBS:
            del _shown[next(iter(_shown))]
    return f"{_PATH}/{hub}?angle="


def _answer(request: Request) -> JSONResponse:
    """Answer one hand: 404 for a hub that is not shown any more, 400 for what is no angle."""
    with _lock:
        exact = _shown.get(request.path_params["hub"])
    if exact is None:
        return _json({"error": "no page shows this hub now"}, 404)
    try:
        angle = float(request.query_params.get("angle", ""))
    except ValueError:
        angle = float("nan")
    if not isfinite(angle):
        return _json({"error": "angle: must be a number of degrees"}, 400)
    return _json(exact(angle), 200)


def _json(said: Mapping[str, Any] | None, status: int) -> JSONResponse:
    return JSONResponse(said, status_code=status, headers={"Cache-Control": "no-store"})


ROUTE = Route(f"{_PATH}/{{hub}}", _answer, methods=["GET"])
"""Where the server answers; it does so on a thread of its own."""
