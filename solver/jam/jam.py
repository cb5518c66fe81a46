"""A jam: boxes on the table, parts, intents, and what is in the cable drawer."""

from collections.abc import Iterator, Mapping
from functools import cached_property
from typing import Annotated, Any, Literal, NamedTuple, TypeVar

from pydantic import Field, model_validator

from solver.gear.box import Box, Engine
from solver.gear.cables import Kind
from solver.gear.rig import Rig
from solver.gear.words import (
    DUCKING,
    MOST_TABLES,
    Address,
    Allowed,
    Channel,
    Many,
    Name,
    Names,
    Spot,
    Strict,
    Text,
    refuse,
)
from solver.jam.intents import Avoid, Intent, Layer, Play, Treat, Wish
from solver.jam.jam_faults import jam_faults

W = TypeVar("W", bound=Wish)

MOST_CABLES = 999
"""How many cables of a kind a drawer holds at most."""


class Part(Strict):
    """One musical part. ``notes`` is how many start together; ``sounds`` are those it takes in turn."""

    on: Address | None = None
    sound: Name | None = None
    notes: Annotated[int, Field(strict=True, ge=1, le=128), Allowed("a whole number of notes from 1 to 128")] = 1
    sounds: Names = ()


class Wanted(NamedTuple):
    """One amount of one effect that one part wants, and the intent that says so."""

    part: str
    effect: str
    amount: int
    key: str | None
    at: str | None
    statement: str


class Jam(Strict):
    """One piece of music on the boxes at hand. ``tempo`` is in quarter notes a minute."""

    title: Name
    tempo: Annotated[float, Field(strict=True, gt=0, le=1000), Allowed("beats a minute, above 0 and at most 1000")] = (
        120
    )
    leader: Name
    listen: Address
    mains: Annotated[Literal["stereo", "mono"], Allowed('"stereo" or "mono"')] = "stereo"
    boxes: Annotated[
        dict[Name, Box],
        Field(max_length=MOST_TABLES),
        Allowed('a table of names and box files in quotes, such as tiller = "boxes/tiller.toml"'),
    ]
    cables: (
        dict[
            Kind,
            Annotated[
                int,
                Field(strict=True, ge=0, le=MOST_CABLES),
                Allowed(f"a whole number of cables from 0 to {MOST_CABLES}"),
            ],
        ]
        | None
    ) = None
    parts: Annotated[
        dict[Name, Part], Field(max_length=MOST_TABLES), Allowed(f"[part.NAME] tables, at most {MOST_TABLES}")
    ] = Field(default={}, alias="part")
    intents: Many[Intent] = Field(default=(), alias="intent")
    recall: dict[Name, Text] = Field(default={})

    @model_validator(mode="after")
    def _check(self) -> "Jam":
        refuse(jam_faults(self))
        return self

    @cached_property
    def rig(self) -> Rig:
        """The boxes as one rig."""
        return Rig(self.boxes)

    def changed(self, **fields: Any) -> "Jam":
        """The same jam with some fields changed; they are taken as they are, unchecked."""
        own = {name: getattr(self, name) for name in type(self).model_fields}
        return type(self).model_construct(**own | fields)

    @cached_property
    def ears(self) -> Spot:
        """The outlet that is listened to."""
        return Spot.parse(self.listen)

    def stated(self, kind: type[W]) -> Iterator[tuple[str, W]]:
        """The intents of one kind with their statement ids ("intent.3", counted from 1)."""
        for number, intent in enumerate(self.intents, start=1):
            if isinstance(intent, kind):
                yield f"intent.{number}", intent

    @cached_property
    def layers(self) -> tuple[tuple[str, ...], ...]:
        """Every part in its layer, in file order; layers that share a part are one, a part in none is alone."""
        group = {part: frozenset({part}) for part in self.parts}
        for _, intent in self.stated(Layer):
            merged = frozenset().union(*(group[part] for part in intent.layer))
            group.update(dict.fromkeys(merged, merged))
        ordered = dict.fromkeys(tuple(p for p in self.parts if p in group[part]) for part in self.parts)
        return tuple(ordered)

    def layer_of(self, part: str) -> tuple[str, ...]:
        """The layer that a part belongs to."""
        return next(layer for layer in self.layers if part in layer)

    def players(self, layer: tuple[str, ...]) -> tuple[str, ...]:
        """The boxes or tracks that must play a layer, each of them: as stated, else the leader."""
        stated = (intent.source for _, intent in self.stated(Play) if any(part in layer for part in intent.play))
        return tuple(dict.fromkeys(stated)) or (self.leader,)

    def may_hold(self, engine: Spot) -> bool:
        """Whether a part may live on the engine; in a set, none does on a box that only other jams use."""
        return engine.box in self.boxes

    @cached_property
    def shunned(self) -> frozenset[int]:
        """The channels that an intent avoids."""
        return frozenset(channel for _, intent in self.stated(Avoid) for channel in intent.avoid.channels)

    def quiet_options(self, engine: Engine) -> tuple[Channel, ...]:
        """Where an engine may stand or be moved to, "off" last: never to an avoided channel."""
        return tuple(o for o in engine.options if o == engine.stands or o not in self.shunned)

    @cached_property
    def wanted(self) -> tuple[Wanted, ...]:
        """Every amount that an intent wants of a part, in file order."""
        return tuple(
            Wanted(part, effect, amount, intent.key if effect == DUCKING else None, intent.at, statement)
            for statement, intent in self.stated(Treat)
            for part in intent.treat
            for effect, amount in intent.amounts.items()
        )

    def parts_of(self, kind: type[W]) -> Mapping[str, str]:
        """Parts named by intents of one kind, each with the first statement that names it."""
        named: dict[str, str] = {}
        for statement, intent in self.stated(kind):
            for part in getattr(intent, intent.kind):
                named.setdefault(part, statement)
        return named
