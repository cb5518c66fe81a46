"""A finished plan with its sound, notes and effects followed, each only when a rule asks for it."""

from collections.abc import Iterable
from functools import cached_property

from solver.flow.effects import Effects
from solver.flow.notes import Notes
from solver.flow.sound import Sound
from solver.gear.words import Spot
from solver.jam.intents import Stereo
from solver.jam.jam import Jam
from solver.plans import Plan, PlannedPart


class Followed:
    """What a plan does, read from its cables, parts, strips and engines and from the jam's gear alone.

    What a plan leaves out stands as the box files say. Following ends on any plan, also one with loops. In a set,
    ``before`` and ``after`` are the jams that are played before this one, and those after it.
    """

    def __init__(self, jam: Jam, plan: Plan) -> None:
        self.jam = jam
        self.plan = plan
        self.rig = jam.rig
        self.before: tuple[Followed, ...] = ()
        self.after: tuple[Followed, ...] = ()

    @classmethod
    def together(cls, jams: Iterable[Jam], plans: Iterable[Plan]) -> "tuple[Followed, ...]":
        """The jams of a set with their plans, in playing order."""
        every = tuple(cls(jam, plan) for jam, plan in zip(jams, plans, strict=True))
        for turn, followed in enumerate(every):
            followed.before, followed.after = every[:turn], every[turn + 1 :]
        return every

    @cached_property
    def parts(self) -> dict[str, PlannedPart]:
        """The parts of the jam that are in the plan, in file order."""
        planned = self.plan.parts
        return {part: planned[part] for part in self.jam.parts if part in planned}

    @cached_property
    def homes(self) -> dict[str, Spot]:
        """The engine that each part lives on."""
        return {part: Spot.parse(planned.engine) for part, planned in self.parts.items()}

    @cached_property
    def tracks(self) -> dict[str, Spot]:
        """The track that plays each part."""
        return {part: Spot.parse(planned.track) for part, planned in self.parts.items()}

    @cached_property
    def tenants(self) -> dict[Spot, tuple[str, ...]]:
        """The parts on each engine that has any."""
        found: dict[Spot, tuple[str, ...]] = {}
        for part, engine in self.homes.items():
            found[engine] = (*found.get(engine, ()), part)
        return found

    @cached_property
    def stereo(self) -> frozenset[str]:
        """The parts that are stated stereo."""
        return frozenset(self.jam.parts_of(Stereo))

    @cached_property
    def sound(self) -> Sound:
        """Where the sound goes."""
        return Sound(self.rig, self.plan, self.parts, self.stereo)

    @cached_property
    def sound_without_sums(self) -> Sound:
        """Where the sound would go if no left jack carried both sides."""
        return Sound(self.rig, self.plan, self.parts, self.stereo, sums=False)

    @cached_property
    def sound_without_copies(self) -> Sound:
        """Where the sound would go if no left jack fed both sides."""
        return Sound(self.rig, self.plan, self.parts, self.stereo, copies=False)

    @cached_property
    def heard_over(self) -> dict[str, tuple[Spot, ...]]:
        """The strips over which each part is heard, in file order."""
        return self.sound.heard_over(self.jam.ears)

    @cached_property
    def notes(self) -> Notes:
        """Where the notes go."""
        return Notes(self.rig, self.plan, self.parts)

    @cached_property
    def effects(self) -> Effects:
        """What is done to the sound on its way."""
        return Effects(self.rig, self.plan, self.sound, self.homes, self.stereo)

    def strips_in(self, part: str, box: str) -> tuple[Spot, ...]:
        """The strips of one box that a part enters, in file order."""
        return tuple(strip for strip in self.sound.entered[part] if strip.box == box)
