"""The kinds of intent, each one thing the musician wants."""

from typing import Annotated, Any, ClassVar

from pydantic import BeforeValidator, Discriminator, Field, Tag, model_validator
from pydantic_core import PydanticCustomError

from solver.codes import Code
from solver.gear.box_faults import one_of
from solver.gear.words import (
    DUCKING,
    Address,
    Addresses,
    Allowed,
    ChannelNumber,
    Fault,
    Name,
    Names,
    Pan,
    Percent,
    Strict,
    quoted,
    refuse,
)

PartNames = Annotated[tuple[Name, ...], Field(min_length=1), Allowed("a list of at least one part")]
Weight = Annotated[int, Field(strict=True, ge=1, le=1000), Allowed("a whole number from 1 to 1000")]
Semitones = Annotated[int, Field(strict=True, ge=-127, le=127), Allowed("a whole number of semitones from -127 to 127")]


class Wish(Strict):
    """What every intent may have. ``weight`` is how much it counts where not all intents can be met."""

    kind: ClassVar[str]
    name: Name | None = None
    weight: Weight = 1


class Layer(Wish):
    """Parts that one track plays together, each shifted by so many semitones."""

    kind = "layer"
    layer: PartNames
    shift: dict[Name, Semitones] = Field(default={})

    @model_validator(mode="after")
    def _check(self) -> "Layer":
        known, layered = one_of(self.layer, "a part of this layer"), frozenset(self.layer)
        refuse(
            Fault(Code.UNKNOWN_NAME, ("shift", part), quoted(part), known, self.layer)
            for part in self.shift
            if part not in layered
        )
        return self


class Separate(Wish):
    """Parts that arrive on strips of their own in one box (the leader unless ``at`` says otherwise)."""

    kind = "separate"
    separate: PartNames
    at: Name | None = None


class Treat(Wish):
    """Parts with wanted amounts of effects, in percent; ducking is triggered by the part ``key``."""

    kind = "treat"
    treat: PartNames
    amounts: Annotated[
        dict[Name, Percent],
        Field(alias="with", min_length=1),
        Allowed("effects with percents, such as { reverb = 20 }"),
    ]
    key: Name | None = None
    at: Name | None = None

    @model_validator(mode="after")
    def _check(self) -> "Treat":
        if self.amounts.get(DUCKING, 0) > 0 and self.key is None:
            allowed = 'key = the part that triggers the ducking, such as key = "kick"'
            refuse([Fault(Code.NEEDS_MORE, (), "ducking without a key", allowed)])
        return self


class Stereo(Wish):
    """Parts that keep both sides."""

    kind = "stereo"
    stereo: PartNames


class Play(Wish):
    """Parts played by a track of ``source``: a box, or one track of it ("box/TRACK")."""

    kind = "play"
    play: PartNames
    source: Address = Field(alias="from")


class Match(Wish):
    """Parts whose strip or engine belongs to the track that plays them."""

    kind = "match"
    match: PartNames


class Clock(Wish):
    """Boxes that follow the leader's clock."""

    kind = "clock"
    clock: Annotated[Names, Field(min_length=1), Allowed("a list of at least one box")]


class Program(Wish):
    """Parts whose sound is switched by program change."""

    kind = "program"
    program: PartNames


class Shunned(Strict):
    """Channels, jacks and ports that the plan leaves alone."""

    channels: Annotated[tuple[ChannelNumber, ...], Allowed("a list of channels from 1 to 16")] = ()
    jacks: Addresses = ()
    ports: Addresses = ()


class Avoid(Wish):
    """Channels, jacks and ports that the plan leaves alone."""

    kind = "avoid"
    avoid: Shunned


KEEP_FORMS = ("engine", "channel", "pan", "track", "strip")


TwoSockets = Annotated[tuple[Address, Address], Allowed('two sockets, such as ["barge/L/MONO", "tiller/IN 1"]')]


class Kept(Strict):
    """One thing that stays: a cable between two sockets, or one choice about a part."""

    cable: TwoSockets | None = None
    part: Name | None = None
    engine: Address | None = None
    channel: ChannelNumber | None = None
    pan: Annotated[Pan, Allowed('"left", "centre" or "right"')] | None = None
    track: Address | None = None
    strip: Address | None = None

    @model_validator(mode="after")
    def _check(self) -> "Kept":
        given = [form for form in KEEP_FORMS if getattr(self, form) is not None]
        whole = len(given) == 1 and self.part is not None if self.cable is None else not given and self.part is None
        if not whole:
            found = [key for key in ("cable", "part", *KEEP_FORMS) if getattr(self, key) is not None]
            allowed = "cable alone, or part with one of " + ", ".join(KEEP_FORMS)
            refuse([Fault(Code.ONE_KIND, (), " and ".join(found) or "nothing", allowed)])
        return self


class Keep(Wish):
    """One thing that stays as it is."""

    kind = "keep"
    keep: Kept


KINDS: tuple[type[Wish], ...] = (Layer, Separate, Treat, Stereo, Play, Match, Clock, Program, Avoid, Keep)
_NAMES = tuple(kind.kind for kind in KINDS)


def _kind(value: Any) -> str | None:
    return value.kind if isinstance(value, Wish) else next((name for name in _NAMES if name in value), None)


def _one_kind(value: Any) -> Any:
    if isinstance(value, dict):
        found = [name for name in _NAMES if name in value]
        if len(found) != 1:
            said = " and ".join(found) or ", ".join(map(str, value)) or "nothing"
            raise PydanticCustomError(
                "faults",
                "an intent has one kind",
                {"faults": (Fault(Code.ONE_KIND, (), said, "exactly one of " + ", ".join(_NAMES), _NAMES),)},
            )
    elif not isinstance(value, Wish):
        fault = Fault(Code.WRONG_TYPE, (), repr(value), "a table: [[intent]]")
        raise PydanticCustomError("faults", "an intent is a table", {"faults": (fault,)})
    return value


Intent = Annotated[
    Annotated[Layer, Tag("layer")]
    | Annotated[Separate, Tag("separate")]
    | Annotated[Treat, Tag("treat")]
    | Annotated[Stereo, Tag("stereo")]
    | Annotated[Play, Tag("play")]
    | Annotated[Match, Tag("match")]
    | Annotated[Clock, Tag("clock")]
    | Annotated[Program, Tag("program")]
    | Annotated[Avoid, Tag("avoid")]
    | Annotated[Keep, Tag("keep")],
    Discriminator(_kind),
    BeforeValidator(_one_kind),
]
