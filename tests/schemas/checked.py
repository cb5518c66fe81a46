"""What a schema says of data, and what the reader says of the same data."""

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from jsonschema import Draft202012Validator
from pydantic import ValidationError

from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.reading import BadInput, read_box
from solver.reading.checking import Checked
from solver.reading.jams import jam_from
from solver.reading.source import Source
from solver.schemas import Kind, schema_file
from tests.showing import SCENARIOS

FILES = sorted(SCENARIOS.rglob("*.toml"))
BOXES = [file for file in FILES if file.parent.name == "boxes"]
JAMS = [file for file in FILES if file.parent.name in ("scenarios", "impossible")]


@cache
def validator(kind: Kind) -> Draft202012Validator:
    """Checks data against a schema that comes with hardpan."""
    return Draft202012Validator(json.loads(schema_file(kind).read_text("utf-8")))


def takes(kind: Kind, data: Any) -> bool:
    """Whether the schema takes it."""
    return bool(validator(kind).is_valid(data))


def reads(kind: Kind, data: dict[str, Any], folder: Path = SCENARIOS) -> bool:
    """Whether the reader takes it, with the box files of a folder."""
    source = Source(str(folder / "x.toml"), "")
    if kind == "box":
        checked = Checked(Box, data, source)
        return checked.value is not None and not checked.problems
    try:
        jam_from(data, source, dict(_known(folder)))
    except BadInput:
        return False
    return True


def only_names_or_rules(kind: Kind, data: dict[str, Any], folder: Path = SCENARIOS) -> bool:
    """Whether each key by itself is right, so that what is wrong is a name, a rule between keys, or a box file."""
    if kind == "jam":
        known = _known(folder)
        boxes = {name: known.get(folder / file) or Box.model_construct(name=name) for name, file in _named(data)}
        data = {**data, "boxes": boxes}
    model = Box if kind == "box" else Jam
    try:
        model.model_validate(data, by_alias=True, by_name=False)
    except ValidationError as error:
        return all(detail["type"] == "faults" for detail in error.errors())
    return True


def _named(data: dict[str, Any]) -> Iterator[tuple[str, str]]:
    yield from data["boxes"].items()


@cache
def _known(folder: Path) -> dict[Path, Box | None]:
    """The boxes of a folder, read once."""
    return {file: read_box(file) for file in sorted((folder / "boxes").glob("*.toml"))}
