"""A Streamlit server of our own for one test run: a free port, a data folder of its own, ended by its id."""

import os
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from dataclasses import dataclass, field
from pathlib import Path

from tests.patience import PATIENCE

STOP_SECONDS = 10.0
"""Until a server that does not end when asked is made to [s]: nothing hangs on it but how long a run takes."""


def free_port() -> int:
    """Return a port of the loopback address that nothing listens on."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@dataclass
class Server:
    """One running app.

    Attributes:
        script: the Streamlit script it serves.
        folder: where it is started: its `.streamlit/config.toml` counts.
        scratch: an empty folder for its log and for what the app stores.
        python: the interpreter that runs it.
    """

    script: Path
    folder: Path
    scratch: Path
    python: str = sys.executable
    port: int = field(default_factory=free_port)
    process: subprocess.Popen[bytes] | None = None

    @property
    def url(self) -> str:
        """The address of the app, without a closing slash."""
        return f"http://127.0.0.1:{self.port}"

    @property
    def log(self) -> Path:
        """The file that takes what the server prints."""
        return self.scratch / "server.log"

    def start(self) -> None:
        """Start the server and wait until it says it is well; RuntimeError with its log if it does not."""
        command = [self.python, "-m", "streamlit", "run", str(self.script)]
        options = [f"--server.port={self.port}", "--server.headless=true"]
        environment = {**os.environ, "XDG_DATA_HOME": str(self.scratch), "HOME": str(self.scratch)}
        environment["PYTHONPATH"] = str(self.folder)
        with self.log.open("wb") as log:
            self.process = subprocess.Popen(
                command + options,
                cwd=self.folder,
                env=environment,
                stdin=subprocess.DEVNULL,
                stdout=log,
                stderr=subprocess.STDOUT,
            )
        deadline = time.monotonic() + PATIENCE
        while not self.healthy():
            if self.process.poll() is not None or time.monotonic() > deadline:
                self.stop()
                raise RuntimeError(f"{self.script} did not start:\n{self.log.read_text(errors='replace')}")
            time.sleep(0.1)

    def healthy(self) -> bool:
        """Return whether the server answers that it is well."""
        try:
            with urllib.request.urlopen(f"{self.url}/_stcore/health", timeout=PATIENCE) as answer:
                return bool(answer.read() == b"ok")
        except (urllib.error.URLError, TimeoutError, ConnectionError):
            return False

    def stop(self) -> None:
        """End this server, and no other."""
        if self.process is None or self.process.poll() is not None:
            return
        self.process.terminate()
        try:
            self.process.wait(STOP_SECONDS)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
