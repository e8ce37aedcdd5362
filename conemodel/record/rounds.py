"""Attempts as rounds of a plan: on which day, where the trainee is, an exercise was done."""

from collections.abc import Iterable
from datetime import UTC, date, datetime, tzinfo

from conemodel.record.attempts import Attempt
from conemodel.tasks.practice.plan.spacing import Round


def rounds_of(attempts: Iterable[Attempt], zone: tzinfo | None) -> tuple[Round, ...]:
    """Return attempts as rounds, in the same order; their days are those of a `zone`, of this computer's if None."""
    return tuple(
        Round(
            exercise=one.exercise,
            day=day_of(one.made_at, zone),
            passed=one.passed,
            training=one.training,
            stage=one.stage,
            hubs=max(len(one.hubs), 1),
            seconds=one.seconds,
        )
        for one in attempts
    )


def day_of(made_at: str, zone: tzinfo | None) -> date:
    """Return the day of an attempt in a zone; what has no zone of its own was written in UTC.

    >>> from datetime import timedelta, timezone
    >>> str(day_of("2026-03-01T23:30:00+00:00", timezone(timedelta(hours=2))))
    '2026-03-02'
    """
    at = datetime.fromisoformat(made_at)
    return (at if at.tzinfo else at.replace(tzinfo=UTC)).astimezone(zone).date()
