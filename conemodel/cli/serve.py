"""``serve``: the app for the tablet and the other computers of a workshop or a class."""

import signal
import socket
import subprocess
import sys
import time
from contextlib import suppress
from pathlib import Path

import click

from conemodel.base.errors import InputProblems, Problem
from conemodel.cli.local_network import (
    EVERY_ADDRESS,
    Reach,
    check_port,
    find_reach,
    in_address_bar,
    take_address,
)
from conemodel.cli.reporting import NO_ANSWER, Reported, say
from conemodel.record.database import record_file

APP = Path(__file__).resolve().parents[2] / "app.py"
"""The app, beside the package."""

PORT = 8501
"""Where the app is served unless another port is asked for."""

GRACE = 10.0
"""How long the server may take to end before it is made to [s]."""

EXPOSES = """\
What this opens: anyone on this network who types the address can read, change and delete the records. There is no
login and nothing is encrypted. Nothing leaves this network: the program sends nothing to anyone else.
The records are one file, shared by all who open it: RECORD
"""

NOT_REACHED = """\
If the tablet does not reach it:
  - Type the number, with http:// before it and not https://; a name works on some networks only.
  - Tablet and this machine must be on the same network, the same Wi-Fi. A guest network keeps devices apart.
  - The firewall of this machine may ask once: allow it for private networks. If it never asked, open port PORT.
  - This machine must stay awake while it serves: switch its sleep off.

Ctrl+C ends it.
"""


@click.command()
@click.option(
    "--port", type=click.IntRange(1, 65535), default=PORT, show_default=True, help="where to listen"
)
@click.option("--address", help="serve under this address of the machine only, in numbers")
def serve(port: int, address: str | None) -> None:
    """Serve the app on the local network, for a tablet or a class, until Ctrl+C.

    Prints the addresses to type in. Anyone on the network can then read and change the records.
    """
    with Reported():
        if not APP.is_file():
            limit, remedy = "is not there", "serve from the folder the program came in"
            raise InputProblems([Problem(where=str(APP), value="", limit=limit, remedy=remedy)])
        reach = find_reach() if address is None else take_address(address)
        check_port(reach.listen_on, port)
    _run(reach, port)


def server_command(reach: Reach, port: int) -> list[str]:
    """Return the command that serves the app to the hosts of `reach` and to no other."""
    return [
        *(sys.executable, "-m", "streamlit", "run", str(APP)),
        f"--server.address={reach.listen_on}",
        f"--server.port={port}",
        *(f"--server.allowedHosts={host}" for host in reach.hosts),
        "--server.headless=true",  # the addresses stay in sight
        "--logger.hideWelcomeMessage=true",  # which would ask a machine outside for our address
    ]


def opening_words(reach: Reach, port: int) -> str:
    """Return what is said when the app is open: what to type, what that exposes, what to do if it is not reached."""
    first, *others = (in_address_bar(host, port) for host in reach.addresses + reach.names)
    words = f"Type this into the tablet's browser:\n\n        {first}\n\n"
    if others:
        words += (
            "If that one is not reached, one of these:\n\n"
            + "".join(f"    {each}\n" for each in others)
            + "\n"
        )
    if reach.here:
        words += f"On this machine: {' or '.join(in_address_bar(host, port) for host in reach.here)}\n\n"
    exposes = EXPOSES.replace("RECORD", str(record_file()))
    return f"{words}{exposes}\n{NOT_REACHED.replace('PORT', str(port))}"


def _run(reach: Reach, port: int) -> None:
    """Run the server until it is interrupted or ends by itself."""
    server = _start(server_command(reach, port))
    try:
        say("Starting ...")
        if _wait_until_open(server, reach, port):
            say(opening_words(reach, port), end="")
        code = server.wait()
    except KeyboardInterrupt:
        say(f"\nStopped. What was entered is kept in {record_file()}")
        return
    finally:
        _end(server)
    say(f"The server ended by itself (code {code}); what it said stands above.", err=True)
    sys.exit(NO_ANSWER)


def _start(command: list[str]) -> subprocess.Popen[bytes]:
    """Start the server so that Ctrl+C, which reaches it too, ends it without a word of its own."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # inherited
    server = subprocess.Popen(command, stdin=subprocess.DEVNULL)
    for asked in (signal.SIGINT, signal.SIGTERM):
        signal.signal(asked, signal.default_int_handler)
    return server


def _wait_until_open(server: subprocess.Popen[bytes], reach: Reach, port: int) -> bool:
    """Return whether the server listens; False when it has ended instead."""
    address = "127.0.0.1" if reach.listen_on == EVERY_ADDRESS else reach.listen_on
    while server.poll() is None:
        with suppress(OSError), socket.create_connection((address, port), timeout=GRACE):
            return True
        time.sleep(0.1)
    return False


def _end(server: subprocess.Popen[bytes]) -> None:
    """End the server, by force if it does not end when asked."""
    if server.poll() is not None:
        return
    server.terminate()
    try:
        server.wait(GRACE)
    except (subprocess.TimeoutExpired, KeyboardInterrupt):
        server.kill()
        server.wait()
