"""The small words that box files, jam files and plans share, and how a wrong word is reported."""

import re
from collections.abc import Iterable
from itertools import islice
from typing import Annotated, Any, Literal, NamedTuple, TypeVar, get_args

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field
from pydantic_core import PydanticCustomError

from solver.codes import Code

_BARE = re.compile(r"[A-Za-z0-9_-]+")

Side = Literal["left", "right", "mono"]
SIDES: tuple[Side, ...] = get_args(Side)
Pan = Literal["left", "centre", "right"]
PANS: tuple[Pan, ...] = ("centre", "left", "right")
"""Where something can be panned, where it stands first."""
Channel = int | Literal["off", "all"]

ALL_CHANNELS = tuple(range(1, 17))
"""A MIDI cable carries 16 channels (MIDI 1.0 Detailed Specification 4.2.1, p. 3)."""

DUCKING = "ducking"
"""The one effect that needs a key: the part that triggers it."""

SETTINGS = ("channel", "pan", "outlet", "level", "shift")
"""What can be set on an engine, strip or track besides its effects; no effect may take such a name."""


class Strict(BaseModel):
    """Frozen data that refuses what it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid", populate_by_name=True)


class Spot(NamedTuple):
    """One named thing of one box: an engine, strip, track, jack, port or outlet."""

    box: str
    name: str

    def __str__(self) -> str:
        return f"{self.box}/{self.name}"

    @classmethod
    def parse(cls, text: str) -> "Spot":
        """Split ``"box/NAME"`` at its first slash; without one the name is empty."""
        box, _, name = text.partition("/")
        return cls(box, name)


class Fault(NamedTuple):
    """One thing wrong in a file: of which kind, where, what was found, what is allowed there.

    ``path`` walks from the top of the file; a number counts list items from 0. ``known`` are the names that would do.
    """

    code: Code
    path: tuple[str | int, ...]
    found: str
    allowed: str
    known: tuple[str, ...] = ()


MOST_FAULTS = 500
"""How many faults one check lists at most: a file with more is broken as a whole."""


_ESCAPES = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\t": "\\t", "\r": "\\r"}


def quoted(text: str) -> str:
    """A text in double quotes, with everything escaped that would not show."""
    return f'"{"".join(map(_shown, text))}"'


def dotted(*path: str | int) -> str:
    """A key path as TOML would write it, list items counted from 1: ``cables."6.35 mono"``, ``intent.3``."""
    return ".".join(
        str(step + 1) if isinstance(step, int) else step if _BARE.fullmatch(step) else quoted(step) for step in path
    )


def _shown(char: str) -> str:
    if char in _ESCAPES:
        return _ESCAPES[char]
    if char.isprintable():
        return char
    return f"\\u{ord(char):04x}" if ord(char) < 0x10000 else f"\\U{ord(char):08x}"


class _Faults(tuple[Fault, ...]):
    """Faults that an error shows in words alone: all their names that would do can be many times the file."""

    def __str__(self) -> str:
        return "; ".join(f"{'.'.join(map(str, f.path))}: found {f.found}; allowed: {f.allowed}" for f in self)


def refuse(faults: Iterable[Fault]) -> None:
    """Raise all faults as one validation error; do nothing when there are none."""
    listed = _Faults(islice(faults, MOST_FAULTS))
    if listed:
        raise PydanticCustomError("faults", "{faults}", {"faults": listed})


class Allowed(str):
    """Says in plain words what a field takes; stands in the field's annotation."""


T = TypeVar("T")

MOST_TABLES = 1000
"""How many tables of one kind a file may have."""

Many = Annotated[tuple[T, ...], Field(max_length=MOST_TABLES)]
"""A list of tables."""


def _as_tuple(value: Any) -> Any:
    return (value,) if isinstance(value, str) else value


Name = Annotated[
    str, Field(strict=True, min_length=1, max_length=200), Allowed("a name in quotes, 1 to 200 characters")
]
Address = Annotated[
    str, Field(strict=True, min_length=1, max_length=401), Allowed("a name in quotes, 1 to 401 characters")
]
"""A box by its name, or a thing of a box by both names: "barge/1"."""
Text = Annotated[str, Field(strict=True, max_length=2000), Allowed("a text in quotes, at most 2000 characters")]
Names = Annotated[tuple[Name, ...], Allowed("a list of names in quotes")]
Addresses = Annotated[tuple[Address, ...], Allowed("a list of names in quotes")]
NameOrNames = Annotated[
    tuple[Name, ...],
    BeforeValidator(_as_tuple, json_schema_input_type=Name | tuple[Name, ...]),
    Allowed("a name in quotes, or a list of names"),
]
Flag = Annotated[bool, Field(strict=True), Allowed("true or false")]
Percent = Annotated[int, Field(strict=True, ge=0, le=100), Allowed("a whole number from 0 to 100")]
ChannelNumber = Annotated[int, Field(strict=True, ge=1, le=16), Allowed("a whole number from 1 to 16")]
