"""Tries parts of what a jam states: whether some claims alone leave a plan."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from itertools import combinations
from typing import TypeVar

from solver.jam.claims import Claim, claims, in_force
from solver.jam.intents import Keep, Wish
from solver.jam.jam import Jam
from solver.jam.loosened import Reading, loosened, readings
from solver.outcome import InternalError
from solver.search.clock import Clock
from solver.search.planner import is_possible

Tell = Callable[[], None]
R = TypeVar("R")

MOST_READINGS = 16
"""How many ways to read what is left out are tried at most, unless more are asked for."""
PLAIN = ("part", "on", "sound", "treat")
"""What may be stated of a part that could change places with another."""


class NotDecidedError(Exception):
    """Neither a plan nor a proof that there is none was found."""


class OutOfTimeError(NotDecidedError):
    """The time is up before the answer is known."""


class TooManyReadingsError(NotDecidedError):
    """What is left out can be read in so many ways that they are not all tried."""


class Trial:
    """One jam, or several on one wiring, of which any claims can be left out, and what else is asked of their plan.

    Args:
        stated: What is stated: a jam, or the jams of a set by their files, which have the same boxes.
        clock: How long all trials together may take.
        asked: What is asked besides, and never left out; it speaks of no part, or only while that is there.
        most_cables: How many cables the plan may use.
        tell: Called before each trial, to say how far the work is.
    """

    def __init__(
        self,
        stated: Jam | Mapping[str, Jam],
        clock: Clock,
        *,
        asked: Sequence[Wish] = (),
        most_cables: int | None = None,
        tell: Tell = lambda: None,
    ) -> None:
        self.stated = {"": stated} if isinstance(stated, Jam) else dict(stated)
        self.clock = clock
        self.tell = tell
        self.asked = tuple(asked)
        self.most_cables = most_cables
        self.claims = tuple(claim for file, jam in self.stated.items() for claim in claims(jam, file))
        self._known: dict[object, bool] = {}

    def fails(self, kept: Collection[Claim], most_readings: int = MOST_READINGS) -> bool:
        """Whether it is proved that these claims alone leave no plan.

        Args:
            kept: What is stated.
            most_readings: How many ways to read what is left out are tried at most.

        Raises:
            OutOfTimeError: neither a plan nor a proof was found in time.
            TooManyReadingsError: none of the ways that were tried has a plan, and there are more.
        """
        stated = in_force(kept)
        key = self._shape(stated)
        if key not in self._known:
            self._known[key] = self._decided(stated, most_readings)
        return self._known[key]

    @cached_property
    def _twins(self) -> dict[tuple[str, str], object]:
        """What is stated of each part that has only a place, a sound and amounts: such parts can change places."""
        return {
            (file, name): (part.on, part.sound, tuple(want[1:5] for want in jam.wanted if want.part == name))
            for file, jam in self.stated.items()
            for name, part in jam.parts.items()
            if name in self._plain(file, jam)
        }

    def _plain(self, file: str, jam: Jam) -> set[str]:
        alone = {name for name in jam.parts if len(jam.layer_of(name)) == 1}
        alone -= {want.key for want in jam.wanted if want.key is not None} | {_part_of(wish) for wish in self.asked}
        for claim in self.claims:
            alone -= set() if claim.piece[0] in PLAIN or claim.jam != file else set(claim.parts)
        return alone

    @cached_property
    def _wants(self) -> dict[tuple[str, ...], tuple[object, ...]]:
        """What each claim of an amount wants, whatever part wants it."""
        return {
            (file, want.statement, "treat", want.part, want.effect): want[1:5]
            for file, jam in self.stated.items()
            for want in jam.wanted
        }

    def _shape(self, kept: frozenset[Claim]) -> object:
        """What two sets of claims have in common if parts that can change places are all that tells them apart."""
        others, stated = set[Claim](), defaultdict[tuple[str, str], list[tuple[object, ...]]](list)
        for claim in kept:
            name = (claim.jam, claim.parts[0]) if claim.parts and (claim.jam, claim.parts[0]) in self._twins else None
            if name is None:
                others.add(claim)
            else:
                stated[name].append(self._wants.get((claim.jam, claim.statement, *claim.piece), claim.piece[:1]))
        shapes = Counter(
            (name[0], self._twins[name], frozenset(Counter(said).items())) for name, said in stated.items()
        )
        return frozenset(others), frozenset(shapes.items())

    def confirm(self, kept: Collection[Claim]) -> None:
        """Prove once more, in another way, that these claims alone leave no plan.

        Raises:
            InternalError: there is one after all.
            OutOfTimeError: the time is up.
        """
        if not self._decided(in_force(kept), MOST_READINGS, presolve=False):
            said = ", ".join(claim.id for claim in self.claims if claim in kept)
            raise InternalError(f"a conflict that one search has proved has a plan in another: {said}")

    def jams(self, kept: Collection[Claim]) -> Iterator[list[Jam]]:
        """What these claims alone can mean, each as the jams of it, in the order in which they are tried."""
        stated = in_force(kept)
        for way in _ways(self._readings(stated)):
            yield self._read(stated, way)

    def timed(self, clock: Clock, tell: Tell) -> Trial:
        """The same trial by another clock, with all that is known."""
        same = Trial(self.stated, clock, asked=self.asked, most_cables=self.most_cables, tell=tell)
        same._known = self._known
        return same

    def within(self, change: Callable[[Jam], Jam]) -> Trial:
        """The same trial on changed jams, which may have other claims, with nothing known yet."""
        changed = {file: change(jam) for file, jam in self.stated.items()}
        return Trial(changed, self.clock, asked=self.asked, most_cables=self.most_cables, tell=self.tell)

    def _readings(self, kept: frozenset[Claim]) -> list[tuple[str, Reading]]:
        """What may hold or not, jam by jam."""
        return [
            (file, one)
            for file, jam in self.stated.items()
            for one in readings(jam, _own(kept, file), _own(self.claims, file))
        ]

    def _decided(self, kept: frozenset[Claim], most_readings: int, presolve: bool = True) -> bool:
        open_ = self._readings(kept)

        def possible(way: Collection[tuple[str, Reading]], of_sound: bool) -> bool:
            if self.clock.over:
                raise OutOfTimeError
            self.tell()
            jams = self._read(kept, way)
            found = is_possible(jams, self.clock, most_cables=self.most_cables, presolve=presolve, of_sound=of_sound)
            if found is None:
                raise OutOfTimeError
            return found

        if 2 ** len(open_) > MOST_READINGS:
            of_sound = [one for one in open_ if isinstance(one[1], Claim) and one[1].piece[0] == "stereo"]
            if not any(possible(way, of_sound=True) for way in _ways(of_sound)):
                return True
        for tried, way in enumerate(_ways(open_)):
            if tried == most_readings:
                raise TooManyReadingsError
            if possible(way, of_sound=False):
                return False
        return True

    def _read(self, kept: frozenset[Claim], way: Collection[tuple[str, Reading]]) -> list[Jam]:
        """The jams without the claims that are not kept, of which some may hold all the same."""
        read: list[Jam] = []
        for file, jam in self.stated.items():
            own = _own(kept, file)
            there = {claim.parts[0] for claim in own if claim.piece[0] == "part"}
            asked = [wish for wish in self.asked if _part_of(wish) in there | {None}]
            mine = [one for of, one in way if of == file]
            read.append(loosened(jam, own, _own(self.claims, file), mine, asked))
        return read


def _own(claims: Iterable[Claim], file: str) -> tuple[Claim, ...]:
    """The claims of one jam."""
    return tuple(claim for claim in claims if claim.jam == file)


def _ways(open_: Sequence[R]) -> Iterator[tuple[R, ...]]:
    """Every choice of what is left open: none of it, all of it, and what is between."""
    yield ()
    if open_:
        yield tuple(open_)
    for count in range(1, len(open_)):
        yield from combinations(open_, count)


def _part_of(wish: Wish) -> str | None:
    return wish.keep.part if isinstance(wish, Keep) else None
