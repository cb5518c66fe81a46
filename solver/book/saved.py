"""Saved plans: which jam or set each belongs to, and whether it still passes the check against today's files."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal, TypeVar

from solver.book.shelf import JamFile, PlanFile, SetOnFile, Shelf
from solver.checking import Breach, breaches, set_breaches
from solver.flow.own_words import misstated, set_misstated
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.plans import Plan
from solver.reading.plans import plan_at, set_plan_at
from solver.reading.problems import BadInput

State = Literal["well", "stale", "none"]

F = TypeVar("F", JamFile, SetOnFile)


@dataclass(frozen=True)
class Saved:
    """One saved plan.

    ``reasons`` say why it is stale: what it names that is there no more, rules that it breaks, or what it says of
    itself and is not so. ``names`` are the project names in it, by the jam's file as the set names it ("" for a
    jam's own plan) and box.
    """

    file: Path
    cables: int
    reasons: tuple[str, ...] = ()
    names: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    @property
    def state(self) -> State:
        """Whether it still holds."""
        return "stale" if self.reasons else "well"


def state_of(plans: Iterable[Saved]) -> State:
    """Whether any of the plans still holds, or none of them, or there is none."""
    states = {plan.state for plan in plans}
    return "well" if "well" in states else "stale" if states else "none"


def saved_plans(shelf: Shelf) -> tuple[dict[Path, list[Saved]], list[PlanFile]]:
    """The saved plans by the files of their jams and sets, and those that belong to none that can be read."""
    found: dict[Path, list[Saved]] = {}
    strays: list[PlanFile] = []
    whole = [one for one in shelf.sets if one.of is not None]
    for plan in shelf.plans:
        if isinstance(plan.data.get("jams"), dict):
            of_set = _owner(plan, whole, {one.file: (one.title, one.of.files if one.of else ()) for one in whole})
            if of_set is not None and of_set.of is not None:
                found.setdefault(of_set.file, []).append(_judged_set(plan, of_set.of))
                continue
        else:
            of_jam = _owner(plan, shelf.jams, {one.file: (one.jam.title, one.jam.parts) for one in shelf.jams})
            if of_jam is not None:
                found.setdefault(of_jam.file, []).append(_judged(plan, of_jam.jam))
                continue
        strays.append(plan)
    return found, strays


def _owner(plan: PlanFile, files: Iterable[F], known: Mapping[Path, tuple[str, Collection[str]]]) -> F | None:
    """What a plan belongs to: by title, and where several have it, by its name beside theirs, then by its parts.

    A plan whose title nothing has belongs to the file beside it that begins its name.
    """
    inner = set(plan.data.get("jams", plan.data.get("parts", ())))

    def beside(one: F) -> bool:
        return one.file.parent == plan.file.parent and plan.file.name.startswith(f"{one.file.stem}.")

    titled = [one for one in files if known[one.file][0] == plan.data.get("title")]
    if titled:
        return max(titled, key=lambda one: (beside(one), set(known[one.file][1]) == inner))
    return next((one for one in files if beside(one)), None)


def _judged(plan: PlanFile, jam: Jam) -> Saved:
    try:
        read = plan_at(str(plan.file), jam)
    except BadInput as error:
        return _unfit(plan, error)
    reasons = (*map(_said, breaches(jam, read)), *misstated(jam, read))
    return Saved(plan.file, len(read.cables), reasons, {"": _names(read)})


def _judged_set(plan: PlanFile, of: JamSet) -> Saved:
    try:
        read = set_plan_at(str(plan.file), of)
    except BadInput as error:
        return _unfit(plan, error)
    reasons = (*map(_said, set_breaches(of, read)), *set_misstated(of, read))
    return Saved(plan.file, len(read.cables), reasons, {name: _names(one) for name, one in read.jams.items()})


def _unfit(plan: PlanFile, error: BadInput) -> Saved:
    return Saved(plan.file, len(plan.data["cables"]), tuple(map(str, error.problems)))


def _said(breach: Breach) -> str:
    return f"{breach.rule} {breach.sentence.rstrip(' .')}: {breach.where}"


def _names(plan: Plan) -> dict[str, str]:
    return {box: saved.name for box, saved in plan.recall.items()}
