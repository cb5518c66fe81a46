"""The answer as plain frozen data: cables and settings that meet every intent, and its JSON."""

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field

from solver.gear.box import Memory
from solver.gear.cables import Kind
from solver.gear.words import Address, Allowed, ChannelNumber, Flag, Name, Names, Pan, Percent, Strict, Text

Ends = Annotated[
    Address | tuple[Address, Address],
    Allowed("one socket in quotes, or the two of a breakout's legs, left first"),
]
Value = Annotated[
    Annotated[int, Field(strict=True, ge=-127, le=127)] | Text, Allowed("a whole number from -127 to 127, or a word")
]
Count = Annotated[int, Field(strict=True, ge=0, le=1_000_000), Allowed("a whole number, 0 or more")]
Level = Literal["up", "zero"]
BESIDE = ("alternatives", "jam")
"""What a plan's document may have beside the plan: the next best ones, and the jam that it is for."""
Status = Literal["proved", "found"]


class Cable(Strict):
    """One cable. An end is ``"box/JACK"`` or ``"box/PORT"``; a breakout's end with two legs lists both, left first."""

    kind: Kind
    source: Annotated[Ends, Field(alias="from")]
    to: Ends


class PlannedPart(Strict):
    """Where one part lives and goes. ``channel`` is None where its track sends nothing out."""

    engine: Address
    track: Address
    channel: Annotated[
        ChannelNumber | None, Allowed("a whole number from 1 to 16, or null: the track sends nothing out")
    ]
    outlet: Name
    pan: Pan = "centre"
    strips: dict[Name, Names] | None = None


class PlannedStrip(Strict):
    """One strip that carries a part: amounts of effects in percent, and the part that triggers its ducking."""

    outlet: Name
    pan: Pan = "centre"
    settings: dict[Name, Percent] = Field(default={})
    key: Name | None = None


class PlannedEngine(Strict):
    """One engine of the table, with or without a part; amounts and key as for strips, ``shift`` in semitones."""

    channel: Annotated[ChannelNumber | Literal["off", "all"], Allowed('a whole number from 1 to 16, "off" or "all"')]
    level: Level = "up"
    settings: dict[Name, Percent] = Field(default={})
    key: Name | None = None
    shift: Annotated[
        int, Field(strict=True, ge=-127, le=127), Allowed("a whole number of semitones from -127 to 127")
    ] = 0


Treated = PlannedStrip | PlannedEngine


class Setting(Strict):
    """One thing to set on a box: a setting that moves, or a wanted amount.

    ``of`` says what ``where`` is; ``was`` is None for an amount, of which no box file says where it stands.
    """

    box: Name
    of: Literal["engine", "strip", "track"] | None = None
    where: Name
    what: Name
    value: Value
    was: Value | None = None
    stored: Memory


class Recalled(Strict):
    """Where a jam is saved on a box, if a slot is named for it, and as what: a name that the box's screen takes."""

    slot: Text | None = None
    name: Name


Measured = Annotated[float, Field(strict=True, ge=0, allow_inf_nan=False), Allowed("a number, 0 or more")]


class Timing(Strict):
    """What one serial MIDI cable takes when all the parts that pass it start together.

    ``bytes`` and ``late_ms`` are without running status, ``late_ms`` from the first to the last note;
    ``clock_percent`` is the share that the clock takes at the jam's tempo, ``thrus`` those in a row before its end.
    """

    source: Annotated[Address, Field(alias="from")]
    to: Address
    parts: Names = ()
    notes: Count
    bytes: Count
    late_ms: Measured
    running_bytes: Count
    running_late_ms: Measured
    clock_percent: Measured = 0
    thrus: Count = 0


class Goals(Strict):
    """What the plan costs, in the order in which it counts."""

    cables: Count
    silenced: Count = 0
    settings_moved: Count


class Plan(Strict):
    """Cables and settings that meet every intent.

    ``status`` is "proved" when no plan has fewer cables and none with as many moves fewer settings; ``proof`` tells
    the two apart.
    """

    title: Name
    status: Status = "found"
    proof: dict[str, Flag] = Field(default={})
    cables: tuple[Cable, ...]
    parts: dict[Name, PlannedPart]
    strips: dict[Address, PlannedStrip] = Field(default={})
    settings: tuple[Setting, ...] = ()
    engines: dict[Address, PlannedEngine] = Field(default={})
    recall: dict[Name, Recalled] = Field(default={})
    goals: Goals | None = None
    timing: tuple[Timing, ...] = ()
    cautions: tuple[Text, ...] = ()

    def to_json(self) -> dict[str, Any]:
        """The plan as JSON data, with the field names of a plan file in a fixed order."""
        return self.model_dump(mode="json", by_alias=True)

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> "Plan":
        """Read back what ``to_json`` wrote, or a plan written by hand; what stands beside the plan is left out.

        Raises:
            pydantic.ValidationError: a field is missing, unknown or out of range.
        """
        return cls.model_validate({key: value for key, value in data.items() if key not in BESIDE})
