"""Plan files that carry the jam or set that they are for."""

from typing import Any, NamedTuple

from solver.codes import Code
from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.plans import Plan
from solver.reading.checking import Checked
from solver.reading.plans import plan_from, plan_source, set_plan_from, set_plan_source
from solver.reading.problems import BadInput, in_order
from solver.reading.source import Inside, Source
from solver.set_plans import CarriedSet, SetPlan

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
    jam = _carried(data[JAM], Inside(source, JAM))
    return Saved(jam, plan_from(data, source, jam))


def _carried(data: Any, source: Source) -> Jam:
    """The jam in what a plan carries; where a box is wrong, nothing is said of the rest."""
    named = data.get("boxes", {}) if isinstance(data, dict) else {}
    if not isinstance(named, dict):
        allowed = "an object of names and boxes"
        raise BadInput([source.problem(Code.WRONG_TYPE, ("boxes",), source.written(named), allowed)])
    boxes = {name: Checked(Box, box, Inside(source, "boxes", name)) for name, box in named.items()}
    bad = [problem for box in boxes.values() for problem in box.problems]
    if bad:
        raise BadInput(in_order(bad))
    checked = Checked(Jam, data, source)
    if checked.value is None or checked.problems:
        raise BadInput(in_order(checked.problems))
    return checked.value


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
    checked = Checked(CarriedSet, data, source)
    if checked.value is None or checked.problems:
        raise BadInput(in_order(checked.problems))
    boxes = data["boxes"]
    jams: dict[str, Jam] = {}
    for name, jam in checked.value.jams.items():
        inside = Inside(source, "jams", name)
        own = jam.get("boxes")
        unknown = own if not isinstance(own, list) else [box for box in own if box not in boxes]
        if unknown or not own:
            code = Code.UNKNOWN_NAME if isinstance(own, list) and own else Code.WRONG_TYPE
            allowed = "a list of boxes that the set carries"
            raise BadInput([inside.problem(code, ("boxes",), source.written(own), allowed)])
        jams[name] = _carried({**jam, "boxes": {box: boxes[box] for box in own}}, inside)
    return JamSet(checked.value.title, jams)
