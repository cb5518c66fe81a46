"""Finds the minimal conflicts of an impossible jam: claims that fail together, and no longer once one is left out.

All of them are found by a tree of what is left out (R. Reiter, "A theory of diagnosis from first principles",
Artificial Intelligence 32, 1987; as corrected by R. Greiner et al., 1989): each node leaves some claims out, and is
labelled with a conflict among the others, found by leaving out larger and smaller chunks.
"""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import zip_longest
from typing import NamedTuple

from solver.jam.claims import Claim, in_force, statements
from solver.jam.jam import Jam
from solver.reasons.trial import NotDecidedError, OutOfTimeError, TooManyReadingsError, Trial

Claims = frozenset[Claim]


class Conflict(NamedTuple):
    """Claims that leave no plan; ``minimal`` where it is shown that without any one of them there is one."""

    claims: tuple[Claim, ...]
    minimal: bool

    @property
    def statements(self) -> tuple[str, ...]:
        """The ids of the statements that it is made of."""
        return statements(self.claims)


class Found(NamedTuple):
    """Conflicts, shortest first; ``all`` where it is shown that there are no more."""

    conflicts: tuple[Conflict, ...]
    all: bool


def conflicts(trial: Trial, most: int | None = None) -> Found:
    """The minimal conflicts of an impossible jam, as many as the time allows.

    Args:
        trial: The jam; all its claims together must fail.
        most: How many conflicts to find at most; None for all.
    """
    found: list[Conflict] = []
    try:
        for conflict in _every(trial):
            found.append(conflict)
            if most is not None and len(found) > most:
                return Found(_sorted(found[:most]), all=False)
    except NotDecidedError:
        return Found(_sorted(found), all=False)
    return Found(_sorted(found), all=all(conflict.minimal for conflict in found))


def conflict_in(trial: Trial, kept: Claims) -> Conflict:
    """A minimal conflict among claims that fail together; not shown to be minimal where time is up before."""
    others = [claim for claim in trial.claims if claim in kept and claim.piece[0] != "part"]
    parts, fewest = _needed(trial, _some_parts(trial, kept, others), others)
    speaking = in_force([*parts, *others])
    wishes, minimal = _needed(trial, [claim for claim in others if claim in speaking], parts)
    needed = in_force([*parts, *wishes])
    return Conflict(tuple(claim for claim in trial.claims if claim in needed), fewest and minimal)


def unrelated(found: Sequence[Conflict]) -> tuple[tuple[Conflict, ...], ...]:
    """The conflicts in groups: two that share a statement are in one group, however far around."""
    groups: list[list[Conflict]] = []
    for conflict in found:
        near = [group for group in groups if any(set(conflict.statements) & set(other.statements) for other in group)]
        groups = [group for group in groups if group not in near]
        groups.append([*(other for group in near for other in group), conflict])
    order = {conflict: place for place, conflict in enumerate(found)}
    ordered = [sorted(group, key=order.__getitem__) for group in groups]
    return tuple(tuple(group) for group in sorted(ordered, key=lambda group: order[group[0]]))


def _every(trial: Trial) -> Iterator[Conflict]:
    found: list[Conflict] = []
    enough: list[Claims] = []
    waiting: deque[Claims] = deque([frozenset()])
    seen: set[Claims] = set()
    while waiting:
        left_out = waiting.popleft()
        if any(some <= left_out for some in enough):
            continue
        label = next((known for known in found if left_out.isdisjoint(known.claims)), None)
        if label is None:
            kept = in_force(claim for claim in trial.claims if claim not in left_out)
            if not trial.fails(kept):
                enough.append(left_out)
                continue
            label = conflict_in(trial, kept)
            found.append(label)
            yield label
            if not label.minimal:
                raise OutOfTimeError
        for claim in _telling(label.claims):
            more = left_out | {claim}
            if more not in seen:
                seen.add(more)
                waiting.append(more)


def _first_of_their_kind(stated: Mapping[str, Jam], claims: Iterable[Claim]) -> list[Claim]:
    """That parts are there: first one part of each layer and of each kind of wish, then the second ones, and so on.

    What comes last is left out first, so most of what repeats a wish is left out at once.
    """
    seen: Counter[object] = Counter()
    ranked: list[tuple[int, Claim]] = []
    for claim in claims:
        if claim.piece[0] == "part":
            name, jam = claim.parts[0], stated[claim.jam]
            kinds = ((claim.jam, jam.layer_of(name)), (claim.jam, jam.parts[name].on, _wishes(jam, name)))
            ranked.append((min(seen[kind] for kind in kinds), claim))
            seen.update(kinds)
    return [claim for _, claim in sorted(ranked, key=lambda pair: pair[0])]


def _telling(claims: Sequence[Claim]) -> Iterator[Claim]:
    """The claims without those that a part is there of which another claim speaks: leaving that out leaves out less."""
    for claim in claims:
        others = (other for other in claims if other != claim and other.jam == claim.jam)
        if claim.piece[0] != "part" or not any(claim.parts[0] in other.parts for other in others):
            yield claim


def _needed(trial: Trial, open_: Sequence[Claim], given: Sequence[Claim]) -> tuple[list[Claim], bool]:
    """What cannot be left out of ``open_``, the last ones first, so that all fails with what is given.

    Returns:
        Those claims, and whether there was time to show that each of them is needed.
    """
    needed, rest, shown = list[Claim](), list(open_), True
    chunk = len(rest)
    while rest:
        chunk = min(chunk, len(rest))
        shorter = rest[: len(rest) - chunk]
        fails = False
        try:
            fails = trial.fails([*given, *shorter, *needed])
        except OutOfTimeError:
            return [*rest, *needed], False
        except TooManyReadingsError:
            shown = shown and chunk > 1
        if fails:
            rest, chunk = shorter, 2 * chunk
        elif chunk > 1:
            chunk //= 2
        else:
            needed.insert(0, rest.pop())
    return needed, shown


def _some_parts(trial: Trial, kept: Claims, others: Sequence[Claim]) -> list[Claim]:
    """That parts are there: few that fail, where a guess finds them; else all, those that repeat others last."""
    parts = [claim for claim in _first_of_their_kind(trial.stated, trial.claims) if claim in kept]
    for names in _guesses(trial.stated):
        few = [claim for claim in parts if (claim.jam, claim.parts[0]) in names]
        if len(few) < len(parts):
            try:
                if trial.fails([*few, *others]):
                    return few
            except TooManyReadingsError:
                continue
            except OutOfTimeError:
                break
    return parts


def _guesses(stated: Mapping[str, Jam]) -> Iterator[set[tuple[str, str]]]:
    """Parts among which a conflict is often found, each with its jam."""
    by_jam = [[{(file, name) for name in names} for names in _guesses_of(jam)] for file, jam in stated.items()]
    for guess in zip_longest(*by_jam, fillvalue=set[tuple[str, str]]()):
        yield set().union(*guess)


def _guesses_of(jam: Jam) -> Iterator[set[str]]:
    """Parts of one box; one of each kind of wish; one of each layer."""
    keys = {want.key for want in jam.wanted if want.key is not None}
    homes = {name: (part.on or "").partition("/")[0] for name, part in jam.parts.items()}
    for box in dict.fromkeys(homes.values()):
        yield {name for name, home in homes.items() if home == box} | keys
    kinds: dict[object, str] = {}
    for name in jam.parts:
        kinds.setdefault((homes[name], _wishes(jam, name)), name)
    yield {*kinds.values(), *keys}
    yield {layer[0] for layer in jam.layers} | keys


def _wishes(jam: Jam, part: str) -> tuple[object, ...]:
    return (jam.parts[part].sound, *(want[1:5] for want in jam.wanted if want.part == part))


def _sorted(found: Iterable[Conflict]) -> tuple[Conflict, ...]:
    return tuple(sorted(found, key=lambda conflict: (len(conflict.statements), len(conflict.claims))))
