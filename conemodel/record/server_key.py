"""The key of this server: without it nobody can work a hidden number out from a link."""

import os
import secrets
from contextlib import suppress
from pathlib import Path

from conemodel.record.database import RecordError, record_file

BYTES = 32
"""Length of the key [bytes]."""


def server_key(path: Path | None = None) -> str:
    """Return the key that stands beside the record, made when first asked for.

    Raises:
        RecordError: the key could not be read or written, or is none.

    The same link gives the same hub for as long as this file is kept, and other hubs on another server.
    """
    path = path or record_file().with_name("practice.key")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        if not path.exists():
            _make(path)
        key = path.read_text(encoding="ascii").strip()
    except (OSError, UnicodeDecodeError) as error:
        raise RecordError(f"{path}: the key of this server could not be used: {error}") from error
    if len(key) < BYTES:
        raise RecordError(f"{path}: this is no key; delete the file and a new one is made")
    return key


def _make(path: Path) -> None:
    """Write a new key whole; of two that come here at once one wins and both use it."""
    draft = path.with_name(f"{path.name}.{secrets.token_hex(8)}")
    handle = os.open(draft, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        with os.fdopen(handle, "w", encoding="ascii") as stream:
            stream.write(secrets.token_hex(BYTES))
            stream.flush()
            os.fsync(stream.fileno())
        with suppress(FileExistsError):
            os.link(draft, path)
    finally:
        draft.unlink()
