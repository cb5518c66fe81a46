"""One piece of gear, as its box file describes it."""

import re
from functools import cached_property
from itertools import islice
from typing import Annotated, Any, Literal, NamedTuple

from pydantic import BeforeValidator, Field, model_validator

from solver.codes import Code
from solver.gear.box_faults import box_faults
from solver.gear.cables import AudioPlug, MidiPlug
from solver.gear.words import (
    ALL_CHANNELS,
    MOST_FAULTS,
    Allowed,
    Channel,
    ChannelNumber,
    Fault,
    Flag,
    Many,
    Name,
    NameOrNames,
    Names,
    Side,
    Strict,
    Text,
    refuse,
)

Memory = Literal["box", "project"]


MOST_CHANNELS = 256
"""How many channels a text is read to name, each as often as it stands there."""


_NUMBER = re.compile(r"[0-9]{1,2}")
_WRITTEN = r"(0?[1-9]|1[0-6])"
_RANGE = rf"\s*{_WRITTEN}(-{_WRITTEN})?\s*"
ChannelText = Annotated[str, Field(pattern=f"^{_RANGE}(,{_RANGE})*$")]
"""How files write channels as a text; which of two numbers is the higher one is not seen here."""


def _channels(value: Any) -> Any:
    """Read ``"1-16"``, ``"1-8, 10"``, ``"all"`` or a list into a rising tuple of numbers or ``"all"``."""
    if isinstance(value, str) and value != "all":
        numbers: list[int] = []
        for piece in value.split(","):
            low, dash, high = piece.strip().partition("-")
            if not (_NUMBER.fullmatch(low) and (_NUMBER.fullmatch(high) or not dash)):
                return value
            if int(high or low) < int(low) or len(numbers) > MOST_CHANNELS:
                return value
            numbers.extend(range(int(low), int(high or low) + 1))
        value = numbers
    if isinstance(value, list | tuple) and all(type(number) is int for number in value):
        return tuple(sorted(set(value)))
    return value


Channels = Annotated[
    tuple[ChannelNumber, ...] | Literal["all"],
    BeforeValidator(_channels, json_schema_input_type=ChannelText | tuple[ChannelNumber, ...] | Literal["all"]),
    Allowed('"1-16" or another range, a list of channels from 1 to 16 ([]: none), or "all"'),
]
TrackChannels = Annotated[
    tuple[ChannelNumber, ...],
    BeforeValidator(_channels, json_schema_input_type=ChannelText | tuple[ChannelNumber, ...]),
    Allowed('"1-16" or another range, or a list of channels from 1 to 16 ([]: none)'),
]
Standing = Annotated[
    ChannelNumber | Literal["off", "all"], Allowed('a whole number from 1 to 16, or "off" where it can be off')
]
Stored = Annotated[
    Memory | dict[Name, Memory],
    Allowed('"box" or "project", or a table of settings such as { channel = "box", pan = "project" }'),
]
PanRange = Annotated[Literal["full", "sides", "fixed"], Allowed('"full", "sides" or "fixed"')]


class Jack(NamedTuple):
    """One audio socket: the label printed beside it, and the side or sides that it holds."""

    label: str
    sides: tuple[Side, ...]
    plug: AudioPlug

    @property
    def stereo(self) -> bool:
        """Whether one plug in it carries both sides."""
        return len(self.sides) == 2


class Connection(Strict):
    """An outlet or inlet: a pair of jacks, one stereo jack, or one mono jack."""

    name: Name
    left: Name | None = None
    right: Name | None = None
    stereo: Name | None = None
    mono: Name | None = None
    plug: Annotated[AudioPlug, Allowed('"6.35" or "3.5"')] = "6.35"

    @property
    def jacks(self) -> tuple[Jack, ...]:
        """Its sockets, left before right."""
        if self.mono is not None:
            return (Jack(self.mono, ("mono",), self.plug),)
        if self.stereo is not None:
            return (Jack(self.stereo, ("left", "right"), self.plug),)
        assert self.left is not None and self.right is not None
        return (Jack(self.left, ("left",), self.plug), Jack(self.right, ("right",), self.plug))

    @property
    def sides(self) -> tuple[Side, ...]:
        """``("mono",)``, or left and right."""
        return ("mono",) if self.mono is not None else ("left", "right")

    @property
    def paired(self) -> bool:
        """Whether it has one jack for each side."""
        return self.left is not None

    def shape_faults(self) -> list[Fault]:
        """What is wrong with the jacks that it names."""
        given = {key for key in ("left", "right", "stereo", "mono") if getattr(self, key) is not None}
        if given in ({"left", "right"}, {"stereo"}, {"mono"}):
            return []
        found = " and ".join(sorted(given)) if given else "no jack"
        code = Code.NEEDS_MORE if given < {"left", "right"} else Code.ONE_KIND
        return [Fault(code, (), found, "left and right, or stereo alone, or mono alone")]


class Outlet(Connection):
    """Where sound leaves a box."""

    alone: Annotated[Literal["sum", "own"], Allowed('"sum" or "own"')] = "own"
    mirrors: Name | None = None

    @model_validator(mode="after")
    def _check(self) -> "Outlet":
        faults = self.shape_faults()
        if self.alone == "sum" and not faults and not self.paired:
            allowed = '"sum" only on a pair of jacks (left and right)'
            faults.append(Fault(Code.OUT_OF_PLACE, ("alone",), '"sum"', allowed))
        refuse(faults)
        return self


class Inlet(Connection):
    """Where sound enters a box."""

    alone: Annotated[Literal["copy", "own"], Allowed('"copy" or "own"')] = "own"

    @model_validator(mode="after")
    def _check(self) -> "Inlet":
        faults = self.shape_faults()
        if self.alone == "copy" and not faults and not self.paired:
            allowed = '"copy" only on a pair of jacks (left and right)'
            faults.append(Fault(Code.OUT_OF_PLACE, ("alone",), '"copy"', allowed))
        refuse(faults)
        return self


class Remembers(Strict):
    """Something with settings, each stored by the box for all projects or recalled with the project."""

    name: Name
    stored: Stored = "project"

    @property
    def keeps(self) -> bool:
        """Whether the box stores some setting of it for itself."""
        return self.stored == "box" or (isinstance(self.stored, dict) and "box" in self.stored.values())

    def memory(self, what: str) -> Memory:
        """Who stores the setting ``what``: the box once for all, or each project for itself."""
        return self.stored if isinstance(self.stored, str) else self.stored.get(what, "project")


class Emitter(Remembers):
    """A strip or an engine: it sends sound to one of its outlets at one pan, with its own effects."""

    to: NameOrNames = ()
    pan: PanRange = "full"
    offers: Names = ()
    key: Names = ()


class Strip(Emitter):
    """One mixer channel: what arrives on its jack, with its own settings."""

    source: Name = Field(alias="from")
    track: Name | None = None


class Engine(Emitter):
    """One sound of a box that can be played on its own. ``shift`` is in semitones, either way."""

    sound: Text = ""
    channels: Channels = ALL_CHANNELS
    channel: Standing | None = None
    can_be_off: Flag = False
    shift: Annotated[int, Field(strict=True, ge=0, le=127), Allowed("a whole number of semitones from 0 to 127")] = 0
    program_change: Flag = False

    @property
    def stands(self) -> Channel:
        """The channel it listens to now; "off" for an engine with no MIDI channel at all."""
        if self.channels == "all":
            return self.channel or "all"
        return self.channel or (self.channels[0] if self.channels else "off")

    @property
    def options(self) -> tuple[Channel, ...]:
        """Every channel it can be set to, "off" last; "off" alone for an engine with no MIDI channel at all."""
        every: tuple[Channel, ...] = ("all",) if self.channels == "all" else self.channels
        return (*every, "off") if self.can_be_off or not every else every


class Track(Remembers):
    """One lane of a sequencer: it sends notes on one channel."""

    channels: TrackChannels = ALL_CHANNELS
    channel: Standing | None = None
    plays: Name | None = None
    can_be_off: Flag = False
    program_change: Flag = False

    @property
    def stands(self) -> Channel:
        """The channel it sends on now; "off" for a track that sends nothing out."""
        return self.channel or (self.channels[0] if self.channels else "off")

    @property
    def options(self) -> tuple[Channel, ...]:
        """Every channel it can be set to, "off" last."""
        silent = self.can_be_off or not self.channels
        return (*self.channels, "off") if silent else self.channels


class Port(Strict):
    """A MIDI socket. An out may repeat in ports; a thru copies one; "both" is an out and an in at once."""

    name: Name
    way: Annotated[Literal["out", "in", "thru", "both"], Allowed('"out", "in", "thru", or "both" for USB')]
    plug: Annotated[MidiPlug, Allowed('"din", "trs-a", "trs-b", "usb-host" or "usb-device"')] = "din"
    repeats: NameOrNames = ()
    copies: Name | None = None
    clock: Flag = False

    @property
    def sends(self) -> bool:
        """Whether a cable can take notes out of it."""
        return self.way != "in"

    @property
    def takes(self) -> bool:
        """Whether a cable can bring notes into it."""
        return self.way in ("in", "both")

    @property
    def passes_on(self) -> tuple[str, ...]:
        """The in ports whose notes leave by it."""
        return (self.copies,) if self.copies is not None else self.repeats


class Box(Strict):
    """One piece of gear on the table."""

    name: Name
    about: Text = ""
    name_length: (
        Annotated[int, Field(strict=True, ge=1, le=200), Allowed("a whole number of characters from 1 to 200")] | None
    ) = None
    voices: (
        Annotated[int, Field(strict=True, ge=1, le=4096), Allowed("a whole number of notes from 1 to 4096")] | None
    ) = None
    outlets: Many[Outlet] = Field(default=(), alias="out")
    inlets: Many[Inlet] = Field(default=(), alias="in")
    strips: Many[Strip] = Field(default=(), alias="strip")
    engines: Many[Engine] = Field(default=(), alias="engine")
    tracks: Many[Track] = Field(default=(), alias="track")
    ports: Many[Port] = Field(default=(), alias="midi")

    @model_validator(mode="after")
    def _check(self) -> "Box":
        refuse(self.faults)
        return self

    @cached_property
    def faults(self) -> tuple[Fault, ...]:
        """What is wrong with it, looked for once, for every jam that names it asks; not more than is listed."""
        return tuple(islice(box_faults(self), MOST_FAULTS))

    @property
    def tables(self) -> dict[str, tuple[Outlet | Inlet | Strip | Engine | Track | Port, ...]]:
        """The tables of its file, by their key, in their order."""
        return {
            "out": self.outlets,
            "in": self.inlets,
            "strip": self.strips,
            "engine": self.engines,
            "track": self.tracks,
            "midi": self.ports,
        }

    def outlets_of(self, emitter: Emitter) -> tuple[Outlet, ...]:
        """The outlets that a strip or engine can go to, where it stands first; the box's first one by default."""
        if not emitter.to:
            return self.outlets[:1]
        return tuple(outlet for name in emitter.to for outlet in self.outlets if outlet.name == name)

    def source(self, strip: Strip) -> tuple[Inlet, tuple[Side, ...]]:
        """The inlet that feeds a strip, and the sides that it takes from it.

        Raises:
            KeyError: the strip's ``from`` names no inlet and no side of one.
        """
        for inlet in self.inlets:
            if strip.source == inlet.name:
                return inlet, inlet.sides
            for side in inlet.sides:
                if side != "mono" and strip.source == f"{inlet.name}/{side}":
                    return inlet, (side,)
        raise KeyError(strip.source)
