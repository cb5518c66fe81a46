"""Makes the JSON Schemas of box, jam and set files from the models, and their words from docs/reference/formats.md."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple, get_args

from pydantic import BaseModel

from solver.gear.box import Box
from solver.jam.intents import KINDS
from solver.jam.jam import Jam
from solver.jam.sets import SetFile
from solver.schemas import Kind
from solver.schemas.files import A_BOX_FILE, AN_EFFECT, BETWEEN_KEYS, NO_SLASH, ONCE, Schema

DIALECT = "https://json-schema.org/draft/2020-12/schema"
"""How a schema says that it keeps to draft 2020-12."""

FORMATS = Path(__file__).parents[2] / "docs" / "reference" / "formats.md"
"""The page whose sentences describe the keys; it is there in the source, not in an installed package."""

MODELS: dict[Kind, type[BaseModel]] = {"box": Box, "jam": Jam, "set": SetFile}

_TABLES = {
    "Box": "The box",
    "Outlet": "Outlet",
    "Inlet": "Inlet",
    "Strip": "Strip",
    "Engine": "Engine",
    "Track": "Track",
    "Port": "MIDI socket",
    "Jam": "The jam",
    "Part": "Part",
    "Shunned": "Avoid",
    "Kept": "Keep",
    "SetFile": "The set",
}
"""The heading of the table that tells of a model."""

_NESTED = ("items", "additionalProperties", "propertyNames")
_LISTED = ("anyOf", "oneOf", "allOf", "prefixItems")
_NULL = {"type": "null"}
_FIRST = ("description", "type", "enum", "const", "default", "required", "properties")
"""What comes first in a schema; the rest is in order of its names."""


class Told(NamedTuple):
    """What a page says of a key: what it means, and what it is where it is left out."""

    meaning: str
    default: str


def schema_text(kind: Kind, page: str) -> str:
    """The schema of a kind of file, as its file holds it.

    Args:
        kind: Which files it is for.
        page: The text of docs/reference/formats.md.

    Raises:
        KeyError: the page does not tell of a key.
    """
    return json.dumps(schema(kind, page), ensure_ascii=False, indent=2) + "\n"


def schema(kind: Kind, page: str) -> Schema:
    """The schema of a kind of file; see ``schema_text``."""
    model = MODELS[kind]
    raw = model.model_json_schema(by_alias=True)
    tables = {name: _plain(table) for name, table in raw.pop("$defs", {}).items()}
    tables[model.__name__] = _plain(raw)
    for name, table in tables.items():
        told = _told_of(page, name)
        if name == "Jam":
            _name_files(table)
            _describe_cables(table, page)
        for key, value in table["properties"].items():
            table["properties"][key] = _described(value, told[key])
        for key in ONCE.get(name, ()):
            _once(table["properties"][key])
        if "offers" in table["properties"]:
            table["properties"]["offers"]["items"] |= AN_EFFECT
        if name in BETWEEN_KEYS:
            table["allOf"] = BETWEEN_KEYS[name]
    top = tables.pop(model.__name__)
    head = {"$schema": DIALECT, "title": f"{kind.capitalize()} file"}
    return head | top | {"$defs": _reached(top, tables)}


def _plain(node: Schema) -> Schema:
    """A schema without titles, without defaults, and without null, which TOML has not; tables of few keys list them."""
    choices = [_plain(choice) for choice in node.get("anyOf", ()) if choice != _NULL]
    if len(choices) == 1:
        return choices[0]
    plain = {key: value for key, value in node.items() if key not in ("title", "default")}
    if "description" in plain:
        plain["description"] = _words(plain["description"])
    for key in _NESTED:
        if isinstance(plain.get(key), dict):
            plain[key] = _plain(plain[key])
    for key in _LISTED:
        if key in plain:
            plain[key] = [_plain(item) for item in plain[key] if item != _NULL]
    if "properties" in plain:
        plain["properties"] = {key: _plain(value) for key, value in plain["properties"].items()}
    if "enum" in plain.get("propertyNames", {}):
        names = plain.pop("propertyNames")["enum"]
        plain["properties"] = dict.fromkeys(names, plain["additionalProperties"])
        plain["additionalProperties"] = False
    return dict(sorted(plain.items(), key=lambda item: (_FIRST.index(item[0]) if item[0] in _FIRST else 99, item[0])))


def _name_files(jam: Schema) -> None:
    """Boxes stand in a jam file as the names of their files."""
    boxes = jam["properties"]["boxes"]
    boxes["propertyNames"] = boxes["propertyNames"] | NO_SLASH
    boxes["additionalProperties"] = A_BOX_FILE


def _describe_cables(jam: Schema, page: str) -> None:
    kinds = jam["properties"]["cables"]["properties"]
    for names, one, other in _rows(page, "Cable kinds"):
        for name in names.split(", "):
            kinds[name] = {"description": f"one end: {one}; other end: {other}"} | kinds[name]


def _described(value: Schema, told: Told) -> Schema:
    default = {"default": json.loads(told.default)} if _is_value(told.default) else {}
    return {"description": told.meaning} | default | {k: v for k, v in value.items() if k != "description"}


def _is_value(text: str) -> bool:
    try:
        json.loads(text)
    except ValueError:
        return False
    return True


def _once(value: Schema) -> None:
    for choice in value.get("anyOf", [value]):
        if choice["type"] == "array":
            choice["uniqueItems"] = True


def _reached(top: Schema, tables: dict[str, Schema]) -> dict[str, Schema]:
    """The tables that a schema leads to, in order of their names."""
    reached: dict[str, Schema] = {}
    waiting = list(_references(top))
    while waiting:
        name = waiting.pop()
        if name not in reached:
            reached[name] = tables[name]
            waiting.extend(_references(tables[name]))
    return dict(sorted(reached.items()))


def _references(node: Any) -> Iterator[str]:
    if isinstance(node, dict):
        if isinstance(node.get("$ref"), str):
            yield node["$ref"].rpartition("/")[2]
        for value in node.values():
            yield from _references(value)
    elif isinstance(node, list):
        for item in node:
            yield from _references(item)


def _told_of(page: str, model: str) -> dict[str, Told]:
    """What the page tells of each key of a model."""
    if model in _TABLES:
        return {row[0]: Told(row[3], row[2]) for row in _rows(page, _TABLES[model])}
    kind = next(intent.kind for intent in KINDS if intent.__name__ == model)
    own = {row[0]: Told(row[2], "") for row in _rows(page, "Intent") if row[0] == kind}
    beside = {row[0]: Told(row[4], row[3]) for row in _rows(page, "Beside the kind") if row[1] in ("any", kind)}
    return own | beside


def _rows(page: str, heading: str) -> Iterator[list[str]]:
    """The rows of the table under a heading, without the marks of code, and without its own head."""
    text = re.split(r"^#+ ", page.partition(f"\n### {heading}\n")[2], maxsplit=1, flags=re.MULTILINE)[0]
    for line in [line for line in text.splitlines() if line.startswith("|")][2:]:
        yield [_words(cell.strip()) for cell in line.strip("|").split("|")]


def _words(text: str) -> str:
    return text.replace("`", "").replace("\n", " ")


def write(folders: list[Path], say: Callable[[str], object] = print) -> None:
    """Write every schema into each folder, and say which files have changed."""
    page = FORMATS.read_text("utf-8")
    for kind in get_args(Kind):
        text = schema_text(kind, page)
        for folder in folders:
            file = folder / f"{kind}.json"
            if not file.exists() or file.read_text("utf-8") != text:
                file.write_bytes(text.encode())
                say(f"{file} is made anew.")
