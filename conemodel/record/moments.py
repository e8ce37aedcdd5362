"""When something was kept, as it stands in the record."""

from datetime import UTC, datetime


def stamp(now: datetime | None = None) -> str:
    """Return a moment, this one where none is given, in UTC, ISO 8601 to the second."""
    return (now or datetime.now(UTC)).astimezone(UTC).isoformat(timespec="seconds")
