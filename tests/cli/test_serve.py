"""``serve``: what it opens and to whom, in words and in truth."""

import http.client
import re
import socket
import sys
from contextlib import closing
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from click.testing import CliRunner

from conemodel.cli import main
from conemodel.cli.local_network import Reach, choose_reach
from conemodel.cli.serve import APP, opening_words, server_command
from conemodel.record.database import FILE_OPTION
from tests.browser.server import free_port
from tests.cli.serving import ADDRESS, interrupt, served
from tests.patience import PATIENCE

SEVERAL = choose_reach(["192.168.1.20", "10.0.0.5", "fd00::2"], "Office-PC")
SIXTH = choose_reach(["fd00::2"], "office-pc")
BESIDE_PUBLIC = choose_reach(["203.0.114.9", "10.0.0.5", "10.0.0.6"], "office-pc")


def test_the_app_is_found_beside_the_package(root: Path) -> None:
    assert root / "app.py" == APP


@pytest.mark.parametrize("reach", [SEVERAL, SIXTH, BESIDE_PUBLIC], ids=["several", "IPv6", "beside public"])
def test_exactly_the_hosts_that_are_printed_are_allowed(reach: Reach) -> None:
    option = "--server.allowedHosts="
    allowed = [part.removeprefix(option) for part in server_command(reach, 8501) if part.startswith(option)]
    words = opening_words(reach, 8501)
    typed = {str(urlsplit(found).hostname) for found in re.findall(r"http://\S+:8501", words)}
    assert typed == set(allowed) == set(reach.hosts)
    assert f"--server.address={reach.listen_on}" in server_command(reach, 8501)


def test_the_words_begin_with_the_number_and_leave_nothing_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(FILE_OPTION, "kept/here.sqlite3")
    words = " ".join(opening_words(SEVERAL, 8501).split())
    assert words.startswith("Type this into the tablet's browser: http://192.168.1.20:8501 ")
    for said in (
        "anyone on this network",
        "no login",
        "nothing is encrypted",
        "Nothing leaves this network",
        "shared by all who open it: kept/here.sqlite3",
        "same Wi-Fi",
        "guest network",
        "firewall",
        "open port 8501",
        "stay awake",
        "Ctrl+C",
    ):
        assert said in words


def test_a_taken_port_is_said_with_a_free_one() -> None:
    with socket.socket() as other:
        other.bind((ADDRESS, 0))
        other.listen()
        port = other.getsockname()[1]
        result = CliRunner().invoke(main, ["serve", "--address", ADDRESS, "--port", str(port)])
        assert result.exit_code == 2
        assert f"--port = {port}: is taken by another program" in result.output
        offered = re.search(r"--port (\d+)", result.output)
        assert offered is not None
        with socket.socket() as free:
            free.bind((ADDRESS, int(offered[1])))


@pytest.mark.parametrize(
    ("address", "said"),
    [
        ("office", "--address = office: must be an address of this machine in numbers"),
        ("203.0.114.9", "--address = 203.0.114.9: is not an address of this machine"),
    ],
)
def test_an_address_that_cannot_be_served_is_refused(address: str, said: str) -> None:
    result = CliRunner().invoke(main, ["serve", "--address", address, "--port", str(free_port())])
    assert result.exit_code == 2
    assert said in result.output


def test_a_clone_without_its_app_says_so(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr(sys.modules["conemodel.cli.serve"], "APP", tmp_path / "app.py")
    result = CliRunner().invoke(main, ["serve"])
    assert result.exit_code == 2
    assert "app.py: is not there" in result.output


def status(address: str, port: int, host: str) -> tuple[int, str]:
    with closing(http.client.HTTPConnection(address, port, timeout=PATIENCE)) as connection:
        connection.request("GET", "/practise", headers={"Host": host})
        answer = connection.getresponse()
        return answer.status, answer.read().decode()


def test_it_serves_the_allowed_answers_others_in_words_and_ends_in_words(root: Path, tmp_path: Path) -> None:
    port = free_port()
    with served(root, port, tmp_path) as server:
        assert status(ADDRESS, port, f"{ADDRESS}:{port}")[0] == 200
        code, page = status(ADDRESS, port, "office.example")
        assert code == 403
        assert "does not answer under <b>office.example</b>" in page
        with pytest.raises(ConnectionRefusedError):
            socket.create_connection(("127.0.0.1", port), timeout=PATIENCE)
        assert interrupt(server) == 0
    said = (tmp_path / "printed").read_text()
    assert f"http://{ADDRESS}:{port}\n" in said
    assert said.rstrip().endswith(f"kept in {tmp_path / 'record.sqlite3'}")
    assert not re.search("Aborted|Traceback|INFO|Stopping", said)
    with pytest.raises(ConnectionRefusedError):
        socket.create_connection((ADDRESS, port), timeout=PATIENCE)
