"""Harmless values in the place of wrong ones, so that one look at a file finds all that is wrong in it."""

from itertools import count
from typing import Any, Literal, get_args, get_origin

from pydantic import BaseModel

from solver.gear.connections import Connection
from solver.jam.intents import Kept, Treat, Wish
from solver.reading.follow_ons import STAND_IN
from solver.reading.places import Place, bare, is_model, is_union, keys_of
from solver.reading.problems import Path

HARMLESS_INTENT: dict[str, Any] = {"avoid": {}}


class StandIns:
    """Makes values that fit, with names that no file has."""

    def __init__(self) -> None:
        self._numbers = count(1)

    def mended(self, data: Any, here: Place) -> Any:
        """The data without what is wrong at a place; the data itself where nothing can be done."""
        if here.how == "root":
            return data
        known = keys_of(here.model).get(str(here.path[-1])) if here.model is not None else None
        removable = here.how in ("unknown", "key") or (known is not None and not known.required)
        if removable:
            return without(data, here.path)
        return _with(data, here.path, self.value(here.kind))

    def reshaped(self, data: Any, here: Place) -> tuple[Any, Path]:
        """The data with a table at a place that is right as a whole, and the path of what was changed."""
        kind, old = bare(here.kind)[0], value_at(data, here.path)
        if isinstance(old, dict) and is_model(kind) and issubclass(kind, Connection):
            kept = {key: value for key, value in old.items() if key not in ("stereo", "mono", "alone")}
            return _with(data, here.path, {**kept, "left": self.name(), "right": self.name()}), here.path
        if isinstance(old, dict) and kind is Treat:
            path = (*here.path, "key")
            return _with(data, path, self.name()), path
        if kind is Kept or here.path[:1] == ("intent",):
            return _with(data, here.path[:2], HARMLESS_INTENT), here.path[:2]
        return self.mended(data, here), here.path

    def name(self) -> str:
        """A name that no file has."""
        return f"{STAND_IN}{next(self._numbers)}"

    def value(self, kind: Any) -> Any:
        """A value that an annotation takes."""
        inner, _ = bare(kind)
        arguments = get_args(inner)
        if is_model(inner):
            return self._table(inner)
        if get_origin(inner) is Literal or is_union(inner):
            return arguments[0] if get_origin(inner) is Literal else self.value(arguments[0])
        if get_origin(inner) is tuple:
            return [self.value(argument) for argument in arguments if argument is not Ellipsis]
        if get_origin(inner) is dict:
            return {self.value(arguments[0]): self.value(arguments[1])}
        return {bool: False, int: 1, float: 1.0}.get(inner) if inner is not str else self.name()

    def _table(self, model: type[BaseModel]) -> dict[str, Any]:
        if issubclass(model, Wish):
            return HARMLESS_INTENT
        table = {key: self.value(known.kind) for key, known in keys_of(model).items() if known.required}
        if issubclass(model, Connection):
            table.update(left=self.name(), right=self.name())
        return table


def value_at(data: Any, path: Path) -> Any:
    """What stands at a path; None where it leads nowhere."""
    for step in path:
        items = range(len(data)) if isinstance(data, list) else data if isinstance(data, dict) else ()
        if step not in items:
            return None
        data = data[step]
    return data


def _with(data: Any, path: Path, value: Any) -> Any:
    """The data with another value at a path; only what lies on the way is copied."""
    if not path:
        return value
    step, rest = path[0], path[1:]
    if isinstance(data, dict):
        return {**data, step: _with(data.get(step, {}), rest, value)}
    if isinstance(data, list) and isinstance(step, int) and 0 <= step < len(data):
        return [*data[:step], _with(data[step], rest, value), *data[step + 1 :]]
    return data


def without(data: Any, path: Path) -> Any:
    """The data without the key at a path; the data itself where there is none."""
    parent = value_at(data, path[:-1])
    if not isinstance(parent, dict) or path[-1] not in parent:
        return data
    return _with(data, path[:-1], {key: value for key, value in parent.items() if key != path[-1]})
