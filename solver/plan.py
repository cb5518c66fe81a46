"""The answer as plain frozen data: cables and settings that meet every intent, and its JSON."""

from collections.abc import Mapping
from typing import Annotated, Any, Literal

from pydantic import Field

from solver.gear.box import Memory
from solver.gear.cables import Kind
from solver.gear.words import Allowed, Channel, ChannelNumber, Name, Names, Pan, Percent, Strict

Ends = Name | Annotated[tuple[Name, Name], Allowed("one socket, or the two of a breakout's legs, left first")]
Level = Literal["up", "zero"]
Status = Literal["proved", "found"]


class Cable(Strict):
    """One cable. An end is ``"box/JACK"`` or ``"box/PORT"``; the end of a breakout with two legs lists both, left first."""

    kind: Annotated[Kind, Allowed("a cable kind")]
    source: Annotated[Ends, Field(alias="from")]
    to: Ends


class PlannedPart(Strict):
    """Where one part lives and goes. ``channel`` is None where its track sends nothing out."""

    engine: Name
    track: Name
    channel: Annotated[
        ChannelNumber | None, Allowed("a whole number from 1 to 16, or null: the track sends nothing out")
    ]
    outlet: Name
    pan: Pan = "centre"
    strips: dict[Name, Names] | None = None


class Treated(Strict):
    """What a strip or engine does to the sound: amounts in percent, and the part that triggers its ducking."""

    settings: dict[Name, Percent] = Field(default={})
    key: Name | None = None


class PlannedStrip(Treated):
    """One strip that carries a part."""

    outlet: Name
    pan: Pan = "centre"


class PlannedEngine(Treated):
    """One engine of the table, with or without a part. ``shift`` is in semitones."""

    channel: Annotated[Channel, Allowed('a whole number from 1 to 16, "off" or "all"')]
    level: Level = "up"
    shift: int = 0


class Setting(Strict):
    """One thing to set on a box: a setting that moves, or a wanted amount. ``of`` says what ``where`` is."""

    box: Name
    of: Literal["engine", "strip", "track"]
    where: Name
    what: Name
    value: int | str
    was: int | str | None
    stored: Memory


class Goals(Strict):
    """What the plan costs, in the order in which it counts."""

    cables: int
    silenced: int = 0
    settings_moved: int


class Plan(Strict):
    """Cables and settings that meet every intent.

    ``status`` is "proved" when no plan has fewer cables and none with as many moves fewer settings; ``proof`` tells
    the two apart.
    """

    title: Name
    status: Status = "found"
    proof: dict[str, bool] = Field(default={})
    cables: tuple[Cable, ...]
    parts: dict[Name, PlannedPart]
    strips: dict[Name, PlannedStrip] = Field(default={})
    settings: tuple[Setting, ...] = ()
    engines: dict[Name, PlannedEngine] = Field(default={})
    goals: Goals | None = None
    cautions: tuple[str, ...] = ()

    def to_json(self) -> dict[str, Any]:
        """The plan as JSON data, with the field names of a plan file in a fixed order."""
        return self.model_dump(mode="json", by_alias=True)

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> "Plan":
        """Read back what ``to_json`` wrote, or a plan written by hand.

        Raises:
            pydantic.ValidationError: a field is missing, unknown or out of range.
        """
        return cls.model_validate(data)
