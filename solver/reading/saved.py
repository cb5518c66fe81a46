"""Plan files that carry the jam or set that they are for."""

from typing import Any, NamedTuple, TypeVar

from pydantic import BaseModel

from solver.codes import Code
from solver.gear.box import Box
from solver.gear.words import MOST_FAULTS, MOST_TABLES
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.plans import Plan
from solver.reading.checking import Checked
from solver.reading.plans import plan_from, plan_source, set_plan_from, set_plan_source
from solver.reading.problems import BadInput, Problem, in_order, too_many
from solver.reading.source import Inside, Source
from solver.set_plans import CarriedSet, SetPlan

M = TypeVar("M", bound=BaseModel)

JAM = "jam"
_NONE = (
    "the plan carries no jam, so its sheets cannot be made: name its jam file with --jam, or export the jam file itself"
)


SET = "set"
_NO_SET = "the plan carries no set, so its sheets cannot be made: export the set file itself"


class Saved(NamedTuple):
    """A plan, and the jam that it is for."""

    jam: Jam
    plan: Plan


def saved_at(file: str) -> Saved:
    """The plan in a file and the jam that it carries; of a file with alternatives, the best.

    Args:
        file: its path, as it is to stand in messages.

    Raises:
        BadInput: the file cannot be read, is no plan, or carries no jam or one that cannot be.
    """
    data, source = plan_source(file)
    if not isinstance(data, dict) or JAM not in data:
        raise BadInput([source.problem(Code.CARRIES_NOTHING, (), _NONE)])
    inside = Inside(source, JAM)
    jam = _whole(Jam, _with_boxes(data[JAM], inside), inside)
    return Saved(jam, plan_from(data, source, jam))


def _whole(model: type[M], data: Any, source: Source) -> M:
    """What a plan carries.

    Raises:
        BadInput: it cannot be.
    """
    checked = Checked(model, data, source)
    if checked.value is None or checked.problems:
        raise BadInput(in_order(checked.problems))
    return checked.value


def _with_boxes(data: Any, source: Source) -> Any:
    """What a plan carries, with its boxes checked; where some are wrong, nothing is said of the rest.

    Raises:
        BadInput: a box cannot be, or there are more than a table holds.
    """
    if not isinstance(data, dict) or "boxes" not in data:
        return data
    named = data["boxes"]
    if not isinstance(named, dict):
        allowed = "an object of names and boxes"
        raise BadInput([source.problem(Code.WRONG_TYPE, ("boxes",), source.written(named), allowed)])
    if len(named) > MOST_TABLES:
        found, allowed = f"an object of {len(named)} boxes", f"at most {MOST_TABLES}"
        raise BadInput([source.problem(Code.OUT_OF_RANGE, ("boxes",), found, allowed)])
    boxes: dict[str, Box | None] = {}
    bad: list[Problem] = []
    for name, box in named.items():
        checked = Checked(Box, box, Inside(source, "boxes", name))
        boxes[name] = checked.value
        bad += checked.problems
        if len(bad) > MOST_FAULTS:
            bad[MOST_FAULTS:] = [too_many(source.file)]
            break
    if bad:
        raise BadInput(in_order(bad))
    return {**data, "boxes": boxes}


class SavedSet(NamedTuple):
    """The plan of a set, and the set that it is for."""

    of: JamSet
    plan: SetPlan


def saved_set_at(file: str) -> SavedSet:
    """The plan of a set in a file and the set that it carries; of a file with alternatives, the best.

    Raises:
        BadInput: the file cannot be read, is no plan of a set, or carries no set or one that cannot be.
    """
    data, source = set_plan_source(file)
    if not isinstance(data, dict) or SET not in data:
        raise BadInput([source.problem(Code.CARRIES_NOTHING, (), _NO_SET)])
    of = _carried_set(data[SET], Inside(source, SET))
    return SavedSet(of, set_plan_from(data, source, of))


def _carried_set(data: Any, source: Source) -> JamSet:
    """The set in what a plan carries: its boxes once, and jams that name theirs."""
    carried = _whole(CarriedSet, _with_boxes(data, source), source)
    jams: dict[str, Jam] = {}
    for name, jam in carried.jams.items():
        inside, own = Inside(source, "jams", name), jam.get("boxes")
        known = isinstance(own, list) and [box for box in own if isinstance(box, str) and box in carried.boxes]
        if not own or known != own:
            code = Code.UNKNOWN_NAME if isinstance(own, list) and own else Code.WRONG_TYPE
            allowed = "a list of boxes that the set carries"
            raise BadInput([inside.problem(code, ("boxes",), source.written(own), allowed)])
        jams[name] = _whole(Jam, {**jam, "boxes": {box: carried.boxes[box] for box in own}}, inside)
    return JamSet(carried.title, jams)
