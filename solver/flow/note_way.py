"""The way of a part's notes: its track, the cables they take, and the engine they play."""

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from solver.flow.followed import Followed
from solver.flow.stops import Stop
from solver.flow.wires import Half, is_midi, midi_fault, midi_leads, sockets, worded
from solver.gear.words import Channel, Spot
from solver.plans import Cable


@dataclass(frozen=True)
class Hop:
    """One MIDI cable on the way; ``number`` counts the cables of the plan from 1."""

    number: int
    cable: Cable
    source: Spot
    target: Spot


@dataclass(frozen=True)
class NoteWay:
    """How the notes of one part come to its engine.

    Attributes:
        track: The track that plays it.
        channel: What the track sends on, 1 to 16; None where it sends nothing out.
        together: The other parts that the same track plays.
        inside: Whether the track plays the engine inside their box.
        ways: Every way over cables to the engine's box, the shortest to each of its ports.
        engine: The engine.
        listens: What it listens to.
        stops: Where the notes end, if they do not play the engine.
    """

    track: Spot
    channel: int | None
    together: tuple[str, ...]
    inside: bool
    ways: tuple[tuple[Hop, ...], ...]
    engine: Spot
    listens: Channel
    stops: tuple[Stop, ...]


def note_way(followed: Followed, part: str) -> NoteWay:
    """Follow the notes of a part of the plan."""
    return _Way(followed, part).found


class _Way:
    def __init__(self, followed: Followed, part: str) -> None:
        self._followed, self._notes = followed, followed.notes
        self._part = part
        self._track, self._engine = followed.tracks[part], followed.homes[part]

    @property
    def found(self) -> NoteWay:
        return NoteWay(
            track=self._track,
            channel=self._channel,
            together=tuple(part for part in self._notes.playing[self._track] if part != self._part),
            inside=self._inside,
            ways=self._ways,
            engine=self._engine,
            listens=self._notes.channel(self._engine),
            stops=tuple(self._stops()),
        )

    @property
    def _channel(self) -> int | None:
        return self._notes.sending.get(self._track)

    @property
    def _inside(self) -> bool:
        return self._track in self._notes.inside.get(self._engine, ())

    @cached_property
    def _before(self) -> dict[Half, Half | None]:
        """Every half of a port that the notes pass, and the one before it on the shortest way."""
        outs = self._notes.outs(self._track.box)
        found: dict[Half, Half | None] = dict.fromkeys(outs)
        waiting = deque(outs)
        while waiting:
            half = waiting.popleft()
            for after in self._notes.onward.get(half, ()):
                if after not in found:
                    found[after] = half
                    waiting.append(after)
        return found

    @cached_property
    def _ways(self) -> tuple[tuple[Hop, ...], ...]:
        if self._channel is None or self._track.box == self._engine.box:
            return ()
        ports = (Half(port, False) for port in self._followed.rig.ports if port.box == self._engine.box)
        return tuple(self._way_to(half) for half in ports if half in self._before)

    def _way_to(self, end: Half) -> tuple[Hop, ...]:
        found: list[Hop] = []
        half: Half | None = end
        while half is not None:
            before = self._before[half]
            if before is not None and (before, half) in self._cables:
                number, cable = self._cables[before, half]
                found.append(Hop(number, cable, before.port, half.port))
            half = before
        return tuple(reversed(found))

    @cached_property
    def _cables(self) -> dict[tuple[Half, Half], tuple[int, Cable]]:
        numbered = enumerate(self._followed.plan.cables, start=1)
        every = ((number, cable) for number, cable in numbered if is_midi(cable))
        return {
            (lead.source, lead.target): (number, cable)
            for number, cable in every
            for lead in midi_leads(self._followed.rig, cable)
        }

    def _stops(self) -> Iterator[Stop]:
        notes, engine = self._notes, self._engine
        if self._track in notes.sounding[engine]:
            if notes.level(engine) == "zero":
                yield Stop("level at zero", str(engine))
        elif self._channel is None:
            yield Stop("not sent", str(self._track))
        elif self._track.box == engine.box:
            yield Stop("not inside", str(self._track), (str(engine),))
        elif self._ways:
            yield Stop("other channel", str(engine), (str(self._channel), str(notes.channel(engine))))
        elif not self._before:
            yield Stop("no port", str(self._track))
        else:
            yield from self._ends()

    def _ends(self) -> Iterator[Stop]:
        """Where the notes leave a box and go no further; where there is none, where they came last."""
        ends = [half for half in self._before if not self._notes.onward.get(half)]
        leaving = [half for half in ends if half.leaves]
        for half in leaving or ends or list(self._before)[-1:]:
            wrong = [cable for cable in self._followed.plan.cables if half.port in sockets(cable.source)]
            if not half.leaves:
                yield Stop("no way on", str(half.port), (self._engine.box,))
            elif wrong:
                fault = midi_fault(self._followed.rig, wrong[0]) or "it carries nothing this way"
                yield Stop("wrong cable", str(half.port), (worded(wrong[0]), fault))
            else:
                yield Stop("no cable", str(half.port))
