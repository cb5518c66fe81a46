"""All that is wrong in one file's data: single keys first, then names that stand for nothing."""

from collections.abc import Callable, Iterable
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from solver.codes import Code
from solver.gear.nearest import nearest
from solver.gear.words import MOST_FAULTS, Fault
from solver.reading.follow_ons import FollowOns
from solver.reading.places import Place, allowed, keys_of, options, place
from solver.reading.problems import Path, Problem, key_name, too_many
from solver.reading.source import Source
from solver.reading.standins import StandIns, value_at, without

M = TypeVar("M", bound=BaseModel)

_PASSES = 12


class Checked(Generic[M]):
    """Data checked against a model, as often as it takes to find everything.

    Validation reports names that stand for nothing only in data that is right key by key. So what is wrong is noted,
    replaced by something harmless and checked again; what is wrong only because of that is left out.

    Args:
        model: what the data is to be.
        data: the file's data; it is not changed.
        source: where it comes from.
        counts: tells of a fault of the whole (a name that stands for nothing) whether it counts; all do by default.
    """

    def __init__(
        self, model: type[M], data: Any, source: Source, counts: Callable[[Fault], bool] = lambda fault: True
    ) -> None:
        self._model = model
        self._data = data
        self._given = data
        self._source = source
        self._counts = counts
        self._stand_ins = StandIns()
        self._follow_ons = FollowOns()
        self.problems: list[Problem] = []
        self.value: M | None = None
        for _ in range(_PASSES):
            try:
                self.value = model.model_validate(self._data, by_alias=True, by_name=False)
                break
            except ValidationError as error:
                if not self._take(error) or len(self.problems) > MOST_FAULTS:
                    break
        self.problems = list(dict.fromkeys(self.problems))
        if len(self.problems) > MOST_FAULTS and self.problems[-1].code != Code.TOO_MANY:
            self.problems[MOST_FAULTS:] = [too_many(source.file)]

    def add(self, faults: Iterable[Fault]) -> None:
        """Note faults of the whole that validation does not know of."""
        for fault in faults:
            if len(self.problems) >= MOST_FAULTS:
                self.problems.append(too_many(self._source.file))
                break
            if self._counts(fault) and not self._follow_ons.cross(fault):
                self._note(fault.code, fault.path, fault.found, fault.allowed, self._near_fault(fault))

    def _take(self, error: ValidationError) -> bool:
        """Note what one check says; whether another one may say more."""
        if error.error_count() >= MOST_FAULTS:
            return self._take_many(error)
        before = self._data
        details = error.errors(include_url=False, include_input=False)
        places = [(detail, self._place(detail)) for detail in details]
        kinds = _kinds(places)
        places.sort(key=lambda pair: pair[1].how != "unknown")  # a misspelt key explains one that is missing
        inside = {here.path[:end] for _, here in places for end in range(len(here.path))}
        gone: list[Path] = []
        whole = False
        for detail, here in places:
            if detail["type"] == "faults" and not detail["loc"]:
                self.add(detail["ctx"]["faults"])
                whole = True
            elif detail["type"] == "faults":
                gone.extend(self._take_faults(here, detail))
            elif detail["type"] == "too_short" and here.path in inside:
                continue  # it is too short because of the wrong items that are told of
            elif here.path not in gone:
                self._take_place(detail, here, kinds[here.path])
                self._data = self._stand_ins.mended(self._data, here)
                gone.append(here.path)
        for path in gone:
            self._follow_ons.lose(path)
        return not whole and self._data is not before

    def _take_many(self, error: ValidationError) -> bool:
        """Note the first of so many problems that the file is broken as a whole; never go on."""
        details = error.errors(include_url=False, include_input=False)[:MOST_FAULTS]
        places = [(detail, self._place(detail)) for detail in details]
        kinds = _kinds(places)
        for detail, here in places:
            if detail["type"] == "faults":
                self._take_faults(here, detail)
            else:
                self._take_place(detail, here, kinds[here.path])
        self.problems.append(too_many(self._source.file, str(error.error_count())))
        return False

    def _place(self, detail: ErrorDetails) -> Place:
        location = detail["loc"]
        here = place(self._model, location)
        if detail["type"] == "missing" and here.how == "item":  # one of a fixed number of items: the list is too short
            return place(self._model, location[:-1])
        return here

    def _take_place(self, detail: ErrorDetails, here: Place, kinds: set[str]) -> None:
        path = here.path
        name = str(path[-1]) if path else ""
        said = allowed(here, self._source.is_json)
        if here.how == "unknown" and here.model is not None:
            table = value_at(self._given, path[:-1]) or {}
            keys = list(keys_of(here.model))
            meant = nearest(name, [key for key in keys if key not in table]) or nearest(name, keys)
            self._note(Code.UNKNOWN_KEY, path, f"unknown key {key_name(name)}", said, meant)
            if meant is not None:
                self._follow_ons.mean((*path[:-1], meant), absent=meant not in table)
        elif here.how == "key":
            self._note(
                Code.WRONG_NAME,
                path,
                f"the name {self._source.written(name)}",
                said,
                nearest(name, list(options(here.kind))),
            )
        elif not self._follow_ons.single(path, said):
            missing = detail["type"] == "missing" and detail["loc"][-1:] == path[-1:]
            value = value_at(self._given, path)
            near = nearest(value, list(options(here.kind))) if isinstance(value, str) else None
            code = Code.MISSING if missing else _code(value, kinds)
            self._note(code, path, "nothing" if missing else self._source.written(value), said, near)

    def _take_faults(self, here: Place, detail: ErrorDetails) -> list[Path]:
        """Note the faults of one table; the paths of what is replaced because of them."""
        gone: list[Path] = []
        for fault in detail["ctx"]["faults"]:
            path = (*here.path, *fault.path)
            if not self._follow_ons.single(path, fault.allowed):
                value = value_at(self._given, path)
                as_table = fault.path or isinstance(value, dict)
                found = fault.found if as_table else self._source.written(value)
                self._note(fault.code, path, found, fault.allowed, self._near_fault(fault))
            if fault.path:
                self._data = without(self._data, path)
                gone.append(path)
            else:
                self._data, changed = self._stand_ins.reshaped(self._data, here)
                gone.append(changed)
        return gone

    def _near_fault(self, fault: Fault) -> str | None:
        said = fault.found.replace(" and ", ", ").split(", ")
        names = [fault.found[1:-1]] if fault.found.startswith('"') else said
        if any(name in fault.known for name in names):
            return None
        return next((near for name in names if (near := nearest(name, fault.known)) is not None), None)

    def _note(self, code: Code, path: Path, found: str, said: str, suggestion: str | None) -> None:
        self.problems.append(self._source.problem(code, path, found, said, suggestion))


_RANGES = ("greater_than", "less_than", "too_short", "too_long", "finite_number", "string_too")
"""How the names of errors begin that are about how much, how long or how many."""


def _kinds(places: Iterable[tuple[ErrorDetails, Place]]) -> dict[Path, set[str]]:
    """Every type of error by its place: where several kinds of value would do, each says why it does not."""
    found: dict[Path, set[str]] = {}
    for detail, here in places:
        found.setdefault(here.path, set()).add(detail["type"])
    return found


def _code(value: Any, kinds: set[str]) -> Code:
    """What is wrong with a value, of all that its place says."""
    if any(kind.startswith(_RANGES) for kind in kinds):
        return Code.OUT_OF_RANGE
    return Code.WRONG_WORD if isinstance(value, str) and "literal_error" in kinds else Code.WRONG_TYPE
