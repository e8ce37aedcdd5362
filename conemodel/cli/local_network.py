"""Where this machine is reached on its local network, found without sending anything."""

import errno
import os
import re
import socket
from collections.abc import Iterable, Iterator
from contextlib import suppress
from dataclasses import dataclass
from ipaddress import IPv4Address, IPv6Address, ip_address

from conemodel.base.errors import InputProblems, Problem
from conemodel.base.network_address import in_url

EVERY_ADDRESS = "0.0.0.0"
"""Listening there is listening on every IPv4 address of the machine."""

THIS_MACHINE = ("localhost", "127.0.0.1")
"""How the machine itself is reached by those who sit at it."""

FAR_ENDS = ("192.0.2.1", "192.168.255.254", "10.255.255.254", "172.31.255.254", "2001:db8::1")
"""Addresses that a route is asked for: one for documentation, one in each private range (RFC 1918), one of IPv6."""

DISCARD = 9
"""A port for a route that is only asked for."""

PORTS_TRIED = 100
"""How many ports after one that is taken are looked at for one that is free."""


@dataclass(frozen=True, slots=True)
class Reach:
    """Where the app listens and under which hosts it may be opened.

    Attributes:
        listen_on: the address it listens on.
        addresses: its addresses on the network, the one to try first at the head.
        names: what the network may call this machine.
    """

    listen_on: str
    addresses: tuple[str, ...]
    names: tuple[str, ...]

    @property
    def here(self) -> tuple[str, ...]:
        """Hosts that reach it from this machine only."""
        return THIS_MACHINE if self.listen_on == EVERY_ADDRESS else ()

    @property
    def hosts(self) -> tuple[str, ...]:
        """Every host under which it may be opened."""
        return self.addresses + self.names + self.here


def find_reach() -> Reach:
    """Return where this machine is reached on its local network.

    Raises:
        InputProblems: it has no address there.
    """
    return choose_reach(list_addresses(), socket.gethostname())


def choose_reach(found: Iterable[str], host_name: str) -> Reach:
    """Return where to listen, from the addresses `found`, the likeliest first, and the machine's own name.

    Left out are addresses that only this machine or its next neighbour reaches, and those that the internet may reach:
    where there is one of these, the app listens on one local address alone. IPv6 counts where there is no local IPv4.

    Raises:
        InputProblems: none is left.
    """
    every = [ip_address(text) for text in dict.fromkeys(found)]
    exposed = [each for each in every if each.is_global]
    local = [each for each in every if _is_local(each)]
    if not local:
        raise InputProblems([_no_address(exposed)])
    names = host_names(host_name)
    fourth = tuple(str(each) for each in local if each.version == 4)
    if fourth and not any(each.version == 4 for each in exposed):
        return Reach(EVERY_ADDRESS, fourth, names)
    first = fourth[0] if fourth else str(local[0])
    return Reach(first, (first,), names)


def take_address(text: str) -> Reach:
    """Return the reach of the one address that was asked for.

    Raises:
        InputProblems: it is no address.
    """
    try:
        address = str(ip_address(text))
    except ValueError:
        limit = "must be an address of this machine in numbers, such as 192.168.1.20"
        raise InputProblems([Problem(where="--address", value=text, limit=limit)]) from None
    return Reach(address, (address,), host_names(socket.gethostname()))


def host_names(host_name: str) -> tuple[str, ...]:
    """Return what a network may call a machine of this name, as it stands in an address; nothing for an odd one.

    >>> host_names("Office-PC"), host_names("pc.example.org"), host_names("my pc")
    (('office-pc.local', 'office-pc'), ('pc.local', 'pc.example.org'), ())
    """
    name = host_name.lower().rstrip(".")
    if not re.fullmatch(r"[a-z0-9-]+(\.[a-z0-9-]+)*", name) or name.split(".")[0] == "localhost":
        return ()
    return tuple(dict.fromkeys((f"{name.split('.')[0]}.local", name)))


def list_addresses() -> Iterator[str]:
    """Yield this machine's addresses as its routes and its name give them, the one of its main route first."""
    for far in FAR_ENDS:
        family = socket.AF_INET6 if ":" in far else socket.AF_INET
        with suppress(OSError), socket.socket(family, socket.SOCK_DGRAM) as route:
            route.connect((far, DISCARD))  # asks for the route; a datagram socket sends nothing yet
            yield str(route.getsockname()[0])
    with suppress(OSError):
        for *_, place in socket.getaddrinfo(socket.gethostname(), None, type=socket.SOCK_DGRAM):
            yield str(place[0])


def check_port(address: str, port: int) -> None:
    """Make sure that the app can listen.

    Raises:
        InputProblems: the port is taken, with a free one; or the address is not this machine's.
    """
    failure = _try_port(address, port)
    if failure is None:
        return
    if failure.errno == errno.EADDRINUSE:
        later = range(port + 1, min(port + 1 + PORTS_TRIED, 1 << 16))
        free = next((each for each in later if _try_port(address, each) is None), None)
        remedy = "perhaps it runs already; stop that" + (
            f", or take a free port: --port {free}" if free else ""
        )
        problem = Problem(where="--port", value=str(port), limit="is taken by another program", remedy=remedy)
    elif failure.errno == errno.EACCES:
        remedy = "take one above 1023"
        problem = Problem(
            where="--port", value=str(port), limit="may not be used by this user", remedy=remedy
        )
    else:
        limit = "is not an address of this machine"
        problem = Problem(where="--address", value=address, limit=limit, remedy=failure.strerror or "")
    raise InputProblems([problem])


def in_address_bar(host: str, port: int) -> str:
    """Return what is typed to open `host`.

    >>> in_address_bar("192.168.1.20", 8501), in_address_bar("fd00::2", 8501)
    ('http://192.168.1.20:8501', 'http://[fd00::2]:8501')
    """
    return f"http://{in_url(host)}:{port}"


def _is_local(address: IPv4Address | IPv6Address) -> bool:
    """Tell whether others on the network reach an address and the internet does not."""
    own = address.is_loopback or address.is_link_local or address.is_unspecified or address.is_multicast
    return not own and not address.is_global


def _no_address(exposed: list[IPv4Address | IPv6Address]) -> Problem:
    named = ", ".join(map(str, exposed))
    limit = "this machine has no address on a local network"
    remedy = "connect it to the workshop's Wi-Fi or cable and start this again"
    if named:
        limit += f", only {named}, which the internet may reach"
        remedy += ", or, if a firewall stands before it, name that one with --address"
    return Problem(where="network", value="", limit=limit, remedy=remedy)


def _try_port(address: str, port: int) -> OSError | None:
    """Return what stands against listening there, None where nothing does."""
    family = socket.AF_INET6 if ":" in address else socket.AF_INET
    try:
        with socket.socket(family) as probe:
            if os.name != "nt":  # elsewhere a port counts as taken for a while after its program has ended
                probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            probe.bind((address, port))
            probe.listen()
    except OSError as failure:
        return failure
    return None
