"""The way of a part's sound, from its engine to the ears, with its level at each point."""

from dataclasses import dataclass

from solver.flow.company import Company
from solver.flow.sound import Voice
from solver.flow.stops import Stop
from solver.gear.words import Channel, Pan, Side, Spot
from solver.plans import Cable


@dataclass(frozen=True)
class Level:
    """How loud one voice of a part is on one side, in dB against what its engine gives; silence has no level."""

    side: Side
    voice: Voice
    db: float


@dataclass(frozen=True)
class AtEngine:
    """The part where it is made; ``shift`` in semitones, ``amounts`` in percent by effect."""

    engine: Spot
    listens: Channel
    shift: int
    pan: Pan
    outlet: Spot
    amounts: dict[str, int]
    key: str | None


@dataclass(frozen=True)
class AtOutlet:
    """The part on an outlet; ``mirrors`` names the outlet that this one repeats, where it came by that."""

    outlet: Spot
    levels: tuple[Level, ...]
    mirrors: Spot | None = None


@dataclass(frozen=True)
class OnCable:
    """The part on a cable, with its levels where the cable ends.

    Attributes:
        number: Counts the cables of the plan from 1.
        cable: The cable.
        sums: Whether its left jack carries both sides, because the right one is empty.
        copies: Whether what comes in on the left feeds both sides, because the right jack is empty.
        levels: The levels behind it.
    """

    number: int
    cable: Cable
    sums: bool
    copies: bool
    levels: tuple[Level, ...]


@dataclass(frozen=True)
class AtStrip:
    """The part as it enters a strip, and how the strip sends it on; ``outlet`` is None where it has none."""

    strip: Spot
    stereo: bool
    pan: Pan
    outlet: Spot | None
    amounts: dict[str, int]
    key: str | None
    levels: tuple[Level, ...]
    company: Company


Point = AtEngine | AtOutlet | OnCable | AtStrip


@dataclass(frozen=True)
class SoundWay:
    """Where the sound of one part goes.

    Attributes:
        points: From the engine to the ears, each before those it leads to; all there are, where it does not get there.
        aside: Where else it goes, without a way to the ears.
        heard: Its levels on the listening outlet; none where it does not get there.
        mono: Its level in mono mains, in dB; None with stereo mains, or where it is not heard.
        stops: Where it ends, if it does not come to the ears.
        round: Where it comes back to where it was, if it does; such a loop can howl.
    """

    points: tuple[Point, ...]
    aside: tuple[Point, ...]
    heard: tuple[Level, ...]
    mono: float | None
    stops: tuple[Stop, ...]
    round: Spot | None

    @property
    def strips(self) -> tuple[Spot, ...]:
        """Every strip that the part enters, on its way or aside."""
        return tuple(point.strip for point in (*self.points, *self.aside) if isinstance(point, AtStrip))
