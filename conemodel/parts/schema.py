"""What every part is: frozen, keyword-only, checked when it is made.

A field is declared once with `quantity`: its unit, its limits and its meaning. From that one declaration come
the check, the key in a scenario file (``bore`` in metres here is ``bore_mm`` there) and the help on screen.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, ClassVar, Self

from pydantic import BaseModel, ConfigDict, Field, ValidationError
from pydantic.fields import FieldInfo

from conemodel.base.errors import InputProblems, Problem
from conemodel.base.units import ONE, Unit


def quantity(
    unit: Unit,
    meaning: str,
    *,
    default: Any = ...,
    above: float | None = None,
    at_least: float | None = None,
    below: float | None = None,
    at_most: float | None = None,
) -> Any:
    """Declare a field measured in `unit`; limits and default are given in `unit`, the part holds SI."""

    def si(value: float | None) -> float | None:
        return None if value is None else unit.to_si(value)

    if isinstance(default, tuple):
        default = tuple(map(unit.to_si, default))
    elif isinstance(default, int | float) and unit is not ONE:
        default = unit.to_si(default)
    return Field(
        default=default,
        gt=si(above),
        ge=si(at_least),
        lt=si(below),
        le=si(at_most),
        description=meaning,
        json_schema_extra={"unit": unit},  # type: ignore[dict-item]
    )


def unit_of(field: FieldInfo) -> Unit:
    """Return the unit a field was declared in (`ONE` for words and counts)."""
    extra = field.json_schema_extra
    unit = extra.get("unit", ONE) if isinstance(extra, dict) else ONE
    return unit if isinstance(unit, Unit) else ONE


def reach_of(field: FieldInfo) -> tuple[float, float]:
    """Return the limits a field was declared with, in its unit, whether or not it may be equal to them."""
    limits = [
        next(getattr(each, name) for each in field.metadata for name in names if hasattr(each, name))
        for names in (("ge", "gt"), ("le", "lt"))
    ]
    low, high = map(unit_of(field).from_si, limits)
    return low, high


def file_key(name: str, field: FieldInfo) -> str:
    """Return the key under which a field stands in a scenario file."""
    suffix = unit_of(field).suffix
    return f"{name}_{suffix}" if suffix else name


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldError:
    """One mistake in a part, still in SI: the field, what was given, and a limit with ``{}`` for a number.

    `field` may go down into a part, ``axle.bore``; `bound` is the number of the limit [SI], or None.
    """

    field: str
    value: Any
    limit: str
    bound: float | None = None
    remedy: str = ""


class PartProblems(InputProblems):
    """The mistakes of one part as problems in SI names; `mistakes` holds them as they were found."""

    def __init__(self, part: type["Part"], mistakes: list[FieldError]) -> None:
        """Say each of `mistakes` in the part's own field names and SI units."""
        self.mistakes = tuple(mistakes)
        super().__init__(part.say(mistake, where=f"{part.__name__}.", si=True) for mistake in mistakes)


_BOUNDS = {
    "greater_than": ("must be above {}", "gt"),
    "greater_than_equal": ("must be at least {}", "ge"),
    "less_than": ("must be below {}", "lt"),
    "less_than_equal": ("must be at most {}", "le"),
}
MISSING = "is missing"
"""The limit said of a field that must be given and is not."""

_KINDS = {
    "missing": MISSING,
    "extra_forbidden": "is not a known name here",
    "finite_number": "must be a finite number",
    "float_type": "must be a number",
    "int_type": "must be a whole number",
    "int_from_float": "must be a whole number",
    "bool_type": "must be true or false",
    "string_type": "must be text in quotes",
    "tuple_type": "must be a list",
}


class Part(BaseModel):
    """A thing a user can describe. An impossible one cannot be made.

    Raises:
        InputProblems: values that cannot be, naming every mistake.
    """

    __slots__ = ("_hash",)  # beside the fields: it is no part of what is compared, copied or pickled

    given_whole: ClassVar[bool] = False
    """Whether a file that has this part must state every field without a default: none comes from a usual part."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, allow_inf_nan=False, defer_build=True)

    def __init__(self, **values: Any) -> None:
        """Check `values` [SI] one by one and against each other.

        Raises:
            InputProblems: values that cannot be, naming every mistake.
        """
        mistakes: list[FieldError] = []
        try:
            super().__init__(**values)
            sound = vars(self)
        except ValidationError as error:
            mistakes = _mistakes_in(error)
            bad = {mistake.field for mistake in mistakes}
            fields = type(self).model_fields.items()
            defaults = {n: f.default for n, f in fields if not f.is_required()}
            sound = {name: value for name, value in {**defaults, **values}.items() if name not in bad}
        mistakes += self.cross_checks(sound)
        if mistakes:
            raise PartProblems(type(self), mistakes)

    def __hash__(self) -> int:
        """Return the hash, computed once: caches of solved hubs look their parts up again and again."""
        try:
            known: int = object.__getattribute__(self, "_hash")
        except AttributeError:
            known = hash(tuple(self._values().values()))
            object.__setattr__(self, "_hash", known)
        return known

    def _values(self) -> dict[str, Any]:
        """Return the fields by name, their values as they are."""
        held = vars(self)  # may hold more: cached properties
        return {name: held[name] for name in type(self).model_fields}

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """Yield the mistakes that show only when fields are held against each other.

        `values` holds the sound fields only; a check whose fields are not all there is left out.
        """
        yield from ()

    def replace(self, **changes: Any) -> Self:
        """Return a copy with `changes` [SI] made, checked like any other part."""
        return type(self)(**{**self._values(), **changes})

    @classmethod
    def locate(cls, path: str) -> tuple[str, Unit]:
        """Return the key a field has in a file, and its unit; `path` may go down: ``axle.bore``."""
        name, _, rest = path.partition(".")
        field = cls.model_fields.get(name)
        if field is None:
            return path, ONE
        inner = part_class(field)
        if rest and inner is not None:
            below, unit = inner.locate(rest)
            return f"{name}.{below}", unit
        return file_key(name, field), unit_of(field)

    @classmethod
    def say(cls, mistake: FieldError, *, where: str = "", si: bool = False) -> Problem:
        """Return a mistake of this part as a `Problem`, in SI names or in those of a scenario file."""
        path, unit = (mistake.field, ONE) if si else cls.locate(mistake.field)
        bound = "" if mistake.bound is None else f"{unit.from_si(mistake.bound):.6g} {unit.symbol}".strip()
        return Problem(
            where=f"{where}{path}",
            value=_as_given(mistake.value, unit),
            limit=mistake.limit.format(bound),
            remedy=mistake.remedy,
        )


def part_class(field: FieldInfo) -> type[Part] | None:
    """Return the part a field holds, or None where it holds a value."""
    kind = field.annotation
    return kind if isinstance(kind, type) and issubclass(kind, Part) else None


def _as_given(value: Any, unit: Unit) -> str:
    """Return a value [SI] as the person wrote it, cut short where it is long."""
    if value is None:
        return ""
    if isinstance(value, float) or (
        isinstance(value, int) and unit is not ONE and not isinstance(value, bool)
    ):
        return f"{unit.from_si(value):.6g}"
    return str(value)[:60]


def _mistakes_in(error: ValidationError) -> list[FieldError]:
    """Return the mistakes in a validation error, one a field, or one an entry of a list."""
    found: dict[tuple[int | str, ...], FieldError] = {}
    for item in error.errors(include_url=False):
        name = str(item["loc"][0])
        limit, bound = _limit(item["type"], item.get("ctx", {}), item["msg"])
        value = None if item["type"] == "missing" else item["input"]
        entry = tuple(at for at in item["loc"][1:2] if isinstance(at, int))
        found.setdefault((name, *entry), FieldError(field=name, value=value, limit=limit, bound=bound))
    return list(found.values())


def _limit(kind: str, context: Mapping[str, Any], message: str) -> tuple[str, float | None]:
    """Return the limit that was broken as words with a place for its number, and the number [SI]."""
    if kind in _BOUNDS:
        words, key = _BOUNDS[kind]
        return words, float(context[key])
    if kind == "literal_error":
        return f"must be one of {context['expected']!s}", None
    if kind in ("too_short", "too_long"):
        return "has the wrong number of entries", None
    return _KINDS.get(kind, message[:1].lower() + message[1:]), None
