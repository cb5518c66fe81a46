"""From a validation error's location to the place in the file, and to what is allowed there."""

import types
from collections.abc import Iterator
from functools import cache
from typing import Annotated, Any, Literal, NamedTuple, Union, get_args, get_origin, get_type_hints

from pydantic import BaseModel, BeforeValidator, Discriminator, Tag
from pydantic.fields import FieldInfo

from solver.gear.words import MOST_TABLES, Allowed, quoted
from solver.reading.problems import Path, key_text

KEY_ERROR = "[key]"
"""How a location says that the key itself is wrong, not what stands under it."""


class Known(NamedTuple):
    """One key that a table may have."""

    kind: Any
    required: bool


class Place(NamedTuple):
    """Where a location leads. ``kind`` is the annotation there; it is None for a key that nobody knows.

    ``how`` says what the last step is: a key of a model's "field" or an "unknown" one, an "entry" of a table with
    free keys or such a "key" itself, an "item" of a list, or the "root".
    """

    path: Path
    kind: Any
    how: Literal["root", "field", "unknown", "entry", "key", "item"] = "root"
    model: type[BaseModel] | None = None


@cache
def keys_of(model: type[BaseModel]) -> dict[str, Known]:
    """The keys of a model as its files write them, in order."""
    hints = get_type_hints(model, include_extras=True)
    fields: dict[str, FieldInfo] = model.model_fields
    return {field.alias or name: Known(hints[name], field.is_required()) for name, field in fields.items()}


def place(model: type[BaseModel], location: Path) -> Place:
    """Walk a model along a location; what validation adds to it (the names of a union's members) is left out."""
    here = Place((), model)
    for i, step in enumerate(location):
        if location[i:] == (KEY_ERROR,) and here.how == "entry":
            return here._replace(how="key", kind=_key_kind(model, location[: i - 1]))
        there = _step(here, step)
        if there is None:
            break
        here = there
        if here.how == "unknown":
            break
    return here


def _key_kind(model: type[BaseModel], location: Path) -> Any:
    return get_args(bare(place(model, location).kind)[0])[0]


def _step(here: Place, step: str | int) -> Place | None:
    kind, notes = bare(here.kind)
    path = (*here.path, step)
    if any(isinstance(note, Discriminator) for note in notes):
        member = next((member for member in get_args(kind) if Tag(str(step)) in bare(member)[1]), None)
        return None if member is None else here._replace(kind=member)
    if any(isinstance(note, BeforeValidator) for note in notes):
        return None
    if is_model(kind):
        known = keys_of(kind).get(str(step))
        return Place(path, None, "unknown", kind) if known is None else Place(path, known.kind, "field", kind)
    arguments = get_args(kind)
    if get_origin(kind) is tuple and isinstance(step, int):
        inner = arguments[0] if arguments[-1] is Ellipsis else arguments[min(step, len(arguments) - 1)]
        return Place(path, inner, "item")
    if get_origin(kind) is dict:
        return Place(path, arguments[1], "entry")
    return None


def bare(kind: Any) -> tuple[Any, tuple[Any, ...]]:
    """An annotation without notes and without "or nothing", and the notes, the outermost first."""
    notes: tuple[Any, ...] = ()
    while True:
        if get_origin(kind) is Annotated:
            notes = (*notes, *reversed(kind.__metadata__))
            kind = kind.__origin__
            continue
        members = [member for member in get_args(kind) if member is not types.NoneType]
        if is_union(kind) and len(members) == 1:
            kind = members[0]
            continue
        return kind, notes


def is_union(kind: Any) -> bool:
    """Whether an annotation is of several kinds."""
    return get_origin(kind) in (Union, types.UnionType)


def is_model(kind: Any) -> bool:
    """Whether an annotation is a table with known keys."""
    return isinstance(kind, type) and issubclass(kind, BaseModel)


def options(kind: Any) -> Iterator[str]:
    """The words that an annotation takes, where it takes only some."""
    inner, _ = bare(kind)
    if get_origin(inner) is Literal:
        yield from map(str, get_args(inner))
    elif is_union(inner):
        for member in get_args(inner):
            yield from options(member)


def allowed(here: Place, json: bool = False) -> str:
    """What is allowed at a place, in plain words."""
    if here.how == "unknown" and here.model is not None:
        return "the keys " + ", ".join(keys_of(here.model))
    return _allowed(here.kind, here.path, json)


def _allowed(kind: Any, path: Path, json: bool) -> str:
    inner, notes = bare(kind)
    for note in notes:
        if isinstance(note, Allowed):
            return str(note)
    if words := list(map(quoted, options(inner))):
        return words[0] if len(words) == 1 else "one of " + ", ".join(words)
    if is_union(inner) and not any(isinstance(note, Discriminator) for note in notes):
        return ", or ".join(_allowed(member, path, json) for member in get_args(inner))
    if json:
        return "a list" if get_origin(inner) is tuple else "an object"
    return _shape(get_origin(inner) is tuple, path)


def _shape(listed: bool, path: Path) -> str:
    """How a table, or a list of tables, is written in TOML."""
    if any(isinstance(step, int) for step in path[:-1]):
        return f"a table: {key_text(path[-1:])} = {{ ... }}"
    header = ".".join(key_text((step,)) for step in path if isinstance(step, str))
    if listed:
        return f"[[{header}]] tables, at most {MOST_TABLES}"
    return f"a table: [[{header}]]" if isinstance(path[-1], int) else f"a table: [{header}]"
