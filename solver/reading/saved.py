"""Plan files that carry the jam that they are for."""

from typing import Any, NamedTuple

from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.reading.checking import Checked
from solver.reading.plans import plan_from, plan_source
from solver.reading.problems import BadInput, in_order
from solver.reading.source import Inside, Source

JAM = "jam"
_NONE = (
    "the plan carries no jam, so its sheets cannot be made: name its jam file with --jam, or export the jam file itself"
)


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
        raise BadInput([source.problem((), _NONE)])
    jam = _carried(data[JAM], Inside(source, JAM))
    return Saved(jam, plan_from(data, source, jam))


def _carried(data: Any, source: Source) -> Jam:
    """The jam in what a plan carries; where a box is wrong, nothing is said of the rest."""
    named = data.get("boxes", {}) if isinstance(data, dict) else {}
    if not isinstance(named, dict):
        raise BadInput([source.problem(("boxes",), source.written(named), "an object of names and boxes")])
    boxes = {name: Checked(Box, box, Inside(source, "boxes", name)) for name, box in named.items()}
    bad = [problem for box in boxes.values() for problem in box.problems]
    if bad:
        raise BadInput(in_order(bad))
    checked = Checked(Jam, data, source)
    if checked.value is None or checked.problems:
        raise BadInput(in_order(checked.problems))
    return checked.value
