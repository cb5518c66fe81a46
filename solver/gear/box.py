"""One piece of gear, as its box file describes it."""

from functools import cached_property
from itertools import islice
from typing import Annotated, Literal

from pydantic import Field, model_validator

from solver.gear.box_faults import box_faults
from solver.gear.cables import MidiPlug
from solver.gear.channels import Channels, Standing, TrackChannels
from solver.gear.connections import Inlet, Outlet
from solver.gear.words import (
    ALL_CHANNELS,
    MOST_FAULTS,
    Allowed,
    Channel,
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
Stored = Annotated[
    Memory | dict[Name, Memory],
    Allowed('"box" or "project", or a table of settings such as { channel = "box", pan = "project" }'),
]
PanRange = Annotated[Literal["full", "sides", "fixed"], Allowed('"full", "sides" or "fixed"')]


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

    def __copy__(self) -> "Box":
        """The same box, which may be changed before it is looked at again."""
        copied = super().__copy__()
        copied.__dict__.pop("faults", None)
        return copied

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
