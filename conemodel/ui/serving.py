"""What stands between the network and the pages: a host that is not allowed gets a sentence instead of the app.

The frame lets such a host load an empty page and refuses it only afterwards, without a word.
"""

import signal
from collections.abc import AsyncGenerator
from contextlib import asynccontextmanager
from ipaddress import ip_address
from typing import Any
from urllib.parse import quote

import streamlit as st
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import HTMLResponse
from starlette.types import ASGIApp, Receive, Scope, Send
from streamlit.cli_util import open_browser
from streamlit.web.server.server_util import get_display_address, get_url
from streamlit.web.server.starlette.starlette_websocket import is_host_allowed

from conemodel.base.network_address import in_url
from conemodel.base.plain_text import for_html
from conemodel.ui.widgets.instrument_ahead import ROUTE

FORBIDDEN = 403
"""Status of an answer to a host that is not allowed."""

REFUSAL = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>Not under this address</title>
<style>
:root {color-scheme: light dark}
body {font-family: sans-serif; line-height: 1.5; max-width: 36rem; margin: 3rem auto; padding: 0 1rem}
a {display: inline-block; padding: 0.7rem 0; overflow-wrap: anywhere}
</style>
</head>
<body>
<main>
<h1>Not under this address</h1>
<p>conemodel does not answer under <b>HOST</b>. It answers only under the addresses it was started for, so that no
stranger's page can reach the records it keeps.</p>
<p>REMEDY</p>
<p>Nothing was read or changed.</p>
</main>
</body>
</html>
"""

ON_THIS_MACHINE = (
    "On the machine it runs on, open http://localhost:PORT. For a tablet or another computer, start it there with "
    "<b>python -m conemodel serve</b>: it prints the addresses to type in."
)


class RefuseForeignHosts:
    """Answers a request to a host that is not in `server.allowedHosts` in words; hands every other on to `app`."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request; the frame itself refuses a web socket."""
        answer = self.app
        if scope["type"] == "http" and not is_host_allowed(Request(scope).headers.get("host")):
            page = refusal_page(Request(scope))
            answer = HTMLResponse(page, status_code=FORBIDDEN, headers={"Cache-Control": "no-store"})
        await answer(scope, receive, send)


def refusal_page(request: Request) -> str:
    """Return the page that says why nothing is shown and which address to take instead.

    Only the address at which the request came in is named: who sent it knows that one already.
    """
    address, port = request.scope.get("server") or ("", None)
    remedy = ON_THIS_MACHINE.replace("PORT", str(port))
    if is_host_allowed(in_url(address)) and not ip_address(address).is_loopback:
        page = quote(request.scope["path"]) + "?" * bool(request.query_params) + str(request.query_params)
        other = for_html(f"http://{in_url(address)}:{port}{page}")
        remedy = f'Open this instead: <a href="{other}">{other}</a>'
    host = for_html(request.headers.get("host", "(none)"))
    return REFUSAL.replace("REMEDY", remedy).replace("HOST", host)


@asynccontextmanager
async def begin_serving(_app: Any) -> AsyncGenerator[None]:
    """Open the browser at a desk and end without a word, as the frame does where nothing stands before its pages."""
    _end_quietly()
    if not st.get_option("server.headless"):
        open_browser(get_url(get_display_address(st.get_option("server.address"))))
    yield


def _end_quietly() -> None:
    """Let Ctrl+C end the server as it ends by itself; else it would show where in the code it stood."""
    server: Any = getattr(signal.getsignal(signal.SIGINT), "__self__", None)
    if hasattr(server, "should_exit"):
        signal.signal(signal.SIGINT, lambda *_: setattr(server, "should_exit", True))


ROUTES = [ROUTE]
"""What is answered beside the pages."""

MIDDLEWARE = [Middleware(RefuseForeignHosts)]
"""What a request passes before it reaches the frame."""
