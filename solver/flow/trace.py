"""One part followed from its track to the ears."""

from dataclasses import dataclass

from solver.flow.followed import Followed
from solver.flow.gains import Gains
from solver.flow.note_way import NoteWay, note_way
from solver.flow.sound_way import SoundWay
from solver.flow.sounding import sound_way
from solver.flow.stops import Stop
from solver.jam.jam import Jam
from solver.plans import Plan


@dataclass(frozen=True)
class Trace:
    """The way of one part; ``notes`` and ``sound`` are None where the plan has no such part."""

    part: str
    notes: NoteWay | None
    sound: SoundWay | None

    @property
    def stops(self) -> tuple[Stop, ...]:
        """Where it goes silent; none where it is heard."""
        if self.notes is None or self.sound is None:
            return (Stop("not in the plan", self.part),)
        return (*self.notes.stops, *self.sound.stops)

    @property
    def heard(self) -> bool:
        """Whether its notes play its engine and its sound comes to the ears."""
        return not self.stops


def trace(jam: Jam, plan: Plan, part: str) -> Trace:
    """Follow one part of a jam through any plan, also one that breaks rules.

    Args:
        jam: The jam.
        plan: A plan for it.
        part: A part of the jam, by its name.
    """
    followed = Followed(jam, plan)
    if part not in followed.parts:
        return Trace(part, None, None)
    return Trace(part, note_way(followed, part), sound_way(followed, Gains(followed), part))
