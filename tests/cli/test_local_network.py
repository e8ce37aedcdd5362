"""This machine's addresses on the local network, on made-up interfaces.

What is private, public, loopback and link-local is that of RFC 6890, as `ipaddress` of the standard library has it.
"""

import socket

import pytest

from conemodel.base.errors import InputProblems
from conemodel.cli.local_network import EVERY_ADDRESS, choose_reach, list_addresses

LOOPBACK = ["127.0.0.1", "127.0.1.1", "::1"]
LINK_LOCAL = ["169.254.7.7", "fe80::1%eth0", "fe80::2"]
LOCAL = ["192.168.1.20", "10.0.0.5", "172.17.0.1", "100.64.3.3"]
PUBLIC = "203.0.114.9"
PUBLIC_SIXTH = "2a00:1450::1"


def test_every_local_address_counts_the_likeliest_first() -> None:
    reach = choose_reach([LOCAL[0], *LOOPBACK, *LINK_LOCAL, *LOCAL], "pc")
    assert reach.addresses == tuple(LOCAL)
    assert reach.listen_on == EVERY_ADDRESS
    assert reach.hosts == (*LOCAL, "pc.local", "pc", "localhost", "127.0.0.1")


def test_ipv6_counts_where_there_is_no_ipv4() -> None:
    assert choose_reach(["fd00::2", "10.0.0.5"], "pc").addresses == ("10.0.0.5",)
    alone = choose_reach([*LINK_LOCAL, "fd00::2", "fd00::3"], "pc")
    assert (alone.listen_on, alone.addresses, alone.here) == ("fd00::2", ("fd00::2",), ())


@pytest.mark.parametrize("found", [[PUBLIC, *LOCAL], [*LOCAL, PUBLIC]])
def test_what_the_internet_may_reach_is_not_listened_on(found: list[str]) -> None:
    reach = choose_reach(found, "pc")
    assert (reach.listen_on, reach.addresses, reach.here) == (LOCAL[0], (LOCAL[0],), ())


def test_a_public_ipv6_address_does_no_harm_where_only_ipv4_is_listened_on() -> None:
    reach = choose_reach([PUBLIC_SIXTH, *LOCAL], "pc")
    assert (reach.listen_on, reach.addresses) == (EVERY_ADDRESS, tuple(LOCAL))


@pytest.mark.parametrize("found", [[], LOOPBACK, LINK_LOCAL])
def test_no_address_is_said_in_words(found: list[str]) -> None:
    with pytest.raises(
        InputProblems, match=r"no address on a local network \(connect it to the workshop's Wi-Fi"
    ):
        choose_reach(found, "pc")


def test_a_public_address_alone_is_named_not_served() -> None:
    with pytest.raises(InputProblems, match=rf"only {PUBLIC}, which the internet may reach.*with --address"):
        choose_reach([*LOOPBACK, PUBLIC], "pc")


class Route:
    """A datagram socket of a machine with one cable and one bridge, and no IPv6."""

    def __init__(self, family: int, kind: int) -> None:
        assert kind == socket.SOCK_DGRAM  # a stream would send something
        if family == socket.AF_INET6:
            raise OSError("no IPv6 here")

    def __enter__(self) -> "Route":
        return self

    def __exit__(self, *_: object) -> None:
        pass

    def connect(self, far: tuple[str, int]) -> None:
        self.near = "172.17.0.1" if far[0].startswith("172.") else "192.168.1.20"

    def getsockname(self) -> tuple[str, int]:
        return self.near, 40000


def test_routes_are_asked_first_then_the_name(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(socket, "socket", Route)
    named = [(socket.AF_INET, socket.SOCK_DGRAM, 17, "", (each, 0)) for each in ("127.0.1.1", "10.0.0.5")]
    monkeypatch.setattr(socket, "getaddrinfo", lambda *_, **__: named)
    found = list(list_addresses())
    assert list(dict.fromkeys(found)) == ["192.168.1.20", "172.17.0.1", "127.0.1.1", "10.0.0.5"]


def test_a_name_that_nobody_knows_leaves_the_routes(monkeypatch: pytest.MonkeyPatch) -> None:
    def unknown(*_: object, **__: object) -> None:
        raise socket.gaierror("no such name")

    monkeypatch.setattr(socket, "socket", Route)
    monkeypatch.setattr(socket, "getaddrinfo", unknown)
    assert set(list_addresses()) == {"192.168.1.20", "172.17.0.1"}
