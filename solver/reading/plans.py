"""Plan files, with every name in them looked up on the table of their jam."""

from collections.abc import Collection, Iterator
from functools import cached_property
from typing import Any

from solver.codes import Code
from solver.gear.box_faults import one_of
from solver.gear.words import Fault, Spot, quoted
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.plans import BESIDE, Plan, PlannedEngine, PlannedPart, PlannedStrip
from solver.reading.checking import Checked
from solver.reading.problems import BadInput, Path, in_order
from solver.reading.source import Source, json_source
from solver.set_plans import SET_BESIDE, SetPlan


def plan_at(file: str, jam: Jam) -> Plan:
    """The plan in a file; of one with alternatives, the best.

    Args:
        file: its path, as it is to stand in messages.
        jam: the jam that the plan is for.

    Raises:
        BadInput: the file cannot be read, is no plan, or names what is not on the jam's table.
    """
    return plan_from(*plan_source(file), jam)


def plan_source(file: str) -> tuple[Any, Source]:
    """The data of a plan file, of which it is only known that it is not the plan of a set.

    Raises:
        BadInput: the file cannot be read, is no JSON, or is the plan of a set.
    """
    data, source = json_source(file, "a plan file")
    if isinstance(data, dict) and "jams" in data:
        said = "this is the plan of a set; it goes with the set's file"
        raise BadInput([source.problem(Code.OTHER_KIND, ("jams",), said)])
    return data, source


def plan_from(data: Any, source: Source, jam: Jam) -> Plan:
    """The plan in the data of a file; what stands beside the plan is not looked at.

    Raises:
        BadInput: the data is no plan, or names what is not on the jam's table.
    """
    if isinstance(data, dict):
        data = {key: value for key, value in data.items() if key not in BESIDE}
    checked = Checked(Plan, data, source)
    if checked.value is not None:
        checked.add(_Table(jam).faults(checked.value))
    if checked.value is None or checked.problems:
        raise BadInput(in_order(checked.problems))
    return checked.value


def set_plan_at(file: str, of: JamSet) -> SetPlan:
    """The plan of a set in a file; of one with alternatives, the best.

    Raises:
        BadInput: the file cannot be read, is no plan of a set, or names what is not on the table.
    """
    return set_plan_from(*set_plan_source(file), of)


def set_plan_source(file: str) -> tuple[Any, Source]:
    """The data of a plan file, of which it is only known that it is not the plan of one jam.

    Raises:
        BadInput: the file cannot be read, is no JSON, or is the plan of one jam.
    """
    data, source = json_source(file, "a plan file")
    if isinstance(data, dict) and "jams" not in data:
        said = "this is the plan of one jam; a set's has a plan for each jam under jams"
        raise BadInput([source.problem(Code.OTHER_KIND, (), said)])
    return data, source


def set_plan_from(data: Any, source: Source, of: JamSet) -> SetPlan:
    """The plan of a set in the data of a file; what stands beside the plan is not looked at.

    Raises:
        BadInput: the data is no plan of a set, or names what is not on the table.
    """
    if isinstance(data, dict):
        data = {key: value for key, value in data.items() if key not in SET_BESIDE}
    checked = Checked(SetPlan, data, source)
    if checked.value is not None:
        checked.add(_set_faults(of, checked.value))
    if checked.value is None or checked.problems:
        raise BadInput(in_order(checked.problems))
    return checked.value


def _set_faults(of: JamSet, plan: SetPlan) -> Iterator[Fault]:
    for name in plan.jams:
        yield from _unknown(name, tuple(of.files), ("jams", name), "a jam of this set")
    for name in of.files:
        if name not in plan.jams:
            yield Fault(Code.MISSING, ("jams",), f"no plan of {quoted(name)}", "a plan for each jam of the set")
    for name, jam in of.jams.items():
        if name in plan.jams:
            faults = _Table(jam).faults(plan.jams[name])
            yield from (fault._replace(path=("jams", name, *fault.path)) for fault in faults)
    whole = next(iter(of.jams.values()))
    yield from _Table(whole).faults(Plan(title=plan.title, cables=plan.cables, parts={}, settings=plan.settings))


class _Table:
    """The names on the table of a jam, and how a plan uses them."""

    def __init__(self, jam: Jam) -> None:
        self._jam = jam
        self._rig = jam.rig
        self._of = {"engine": self._engines, "strip": self._strips, "track": self._tracks}

    @cached_property
    def _sockets(self) -> tuple[str, ...]:
        return (*map(str, self._rig.jacks), *map(str, self._rig.ports))

    @cached_property
    def _engines(self) -> tuple[str, ...]:
        return tuple(map(str, self._rig.engines))

    @cached_property
    def _strips(self) -> tuple[str, ...]:
        return tuple(map(str, self._rig.strips))

    @cached_property
    def _tracks(self) -> tuple[str, ...]:
        return tuple(map(str, self._rig.tracks))

    def faults(self, plan: Plan) -> Iterator[Fault]:
        """Yield every name in the plan that stands for nothing on the table."""
        for i, cable in enumerate(plan.cables):
            for key, ends in (("from", cable.source), ("to", cable.to)):
                path: Path = ("cables", i, key)
                if isinstance(ends, str):
                    yield from _unknown(ends, self._sockets, path, "a jack or port")
                    continue
                for leg, end in enumerate(ends):
                    yield from _unknown(end, self._sockets, (*path, leg), "a jack or port")
        for name, part in plan.parts.items():
            yield from _unknown(name, tuple(self._jam.parts), ("parts", name), "a part of this jam")
            yield from self._part_faults(part, ("parts", name))
        for name, strip in plan.strips.items():
            yield from _unknown(name, self._strips, ("strips", name), "a strip of a box")
            yield from self._outlet_faults(strip.outlet, name, ("strips", name, "outlet"))
            yield from self._key_faults(strip, ("strips", name, "key"))
        for name, engine in plan.engines.items():
            yield from _unknown(name, self._engines, ("engines", name), "an engine of a box")
            yield from self._key_faults(engine, ("engines", name, "key"))
        for box in plan.recall:
            yield from _unknown(box, self._jam.boxes, ("recall", box), "a box of this jam")
        yield from self._setting_faults(plan)
        yield from self._timing_faults(plan)

    def _part_faults(self, part: PlannedPart, path: Path) -> Iterator[Fault]:
        yield from _unknown(part.engine, self._engines, (*path, "engine"), "an engine of a box")
        yield from _unknown(part.track, self._tracks, (*path, "track"), "a track of a box")
        yield from self._outlet_faults(part.outlet, part.engine, (*path, "outlet"))
        for box, names in (part.strips or {}).items():
            at: Path = (*path, "strips", box)
            yield from _unknown(box, self._jam.boxes, at, "a box of this jam")
            known = tuple(strip.name for strip in self._jam.boxes[box].strips) if box in self._jam.boxes else names
            for i, name in enumerate(names):
                yield from _unknown(name, known, (*at, i), "a strip of this box")

    def _outlet_faults(self, outlet: str, emitter: str, path: Path) -> Iterator[Fault]:
        box = self._jam.boxes.get(Spot.parse(emitter).box)
        if box is not None:
            yield from _unknown(outlet, tuple(o.name for o in box.outlets), path, "an outlet of this box")

    def _key_faults(self, treated: PlannedStrip | PlannedEngine, path: Path) -> Iterator[Fault]:
        if treated.key is not None:
            yield from _unknown(treated.key, tuple(self._jam.parts), path, "a part of this jam")

    def _setting_faults(self, plan: Plan) -> Iterator[Fault]:
        for i, setting in enumerate(plan.settings):
            path: Path = ("settings", i)
            yield from _unknown(setting.box, self._jam.boxes, (*path, "box"), "a box of this jam")
            if setting.box in self._jam.boxes and setting.of is not None:
                here = tuple(name for box, name in map(Spot.parse, self._of[setting.of]) if box == setting.box)
                article = "an" if setting.of == "engine" else "a"
                yield from _unknown(setting.where, here, (*path, "where"), f"{article} {setting.of} of this box")

    def _timing_faults(self, plan: Plan) -> Iterator[Fault]:
        for i, taken in enumerate(plan.timing):
            for key, port in (("from", taken.source), ("to", taken.to)):
                yield from _unknown(port, self._sockets, ("timing", i, key), "a jack or port")
            for j, part in enumerate(taken.parts):
                yield from _unknown(part, tuple(self._jam.parts), ("timing", i, "parts", j), "a part of this jam")


def _unknown(name: str, known: Collection[str], path: Path, what: str) -> Iterator[Fault]:
    if name not in known:
        yield Fault(Code.UNKNOWN_NAME, path, quoted(name), one_of(known, what), tuple(known))
