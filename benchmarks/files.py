"""Writes a rig to a folder as the files that a user would have: a jam and a file for each box."""

from pathlib import Path
from typing import Any

from benchmarks.rigs import Rig, Table


def write(rig: Rig, folder: Path) -> Path:
    """Write the box files and the jam file of a rig; the path of the jam file."""
    folder.mkdir(parents=True, exist_ok=True)
    table = rig.table()
    for name, box in table["boxes"].items():
        (folder / f"{name}.toml").write_text(toml(box), "utf-8")
    jam = folder / "jam.toml"
    jam.write_text(toml(table | {"boxes": {name: f"{name}.toml" for name in table["boxes"]}}), "utf-8")
    return jam


def toml(table: Table) -> str:
    """A file's table as TOML: plain keys first, then tables, then lists of tables."""
    lines = [f"{key} = {_value(value)}" for key, value in table.items() if not _has_header(value)]
    for key, value in table.items():
        if isinstance(value, dict) and value and all(isinstance(inner, dict) for inner in value.values()):
            for name, inner in value.items():
                lines += ["", f"[{key}.{_key(name)}]", *_pairs(inner)]
        elif isinstance(value, dict):
            lines += ["", f"[{key}]", *_pairs(value)]
        elif _has_header(value):
            for inner in value:
                lines += ["", f"[[{key}]]", *_pairs(inner)]
    return "\n".join(lines) + "\n"


def _has_header(value: Any) -> bool:
    return isinstance(value, dict) or (isinstance(value, list) and any(isinstance(inner, dict) for inner in value))


def _pairs(table: Table) -> list[str]:
    return [f"{_key(key)} = {_value(value)}" for key, value in table.items()]


def _key(name: str) -> str:
    return name if name.replace("-", "").replace("_", "").isalnum() else f'"{name}"'


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        return f"[{', '.join(map(_value, value))}]"
    if isinstance(value, dict):
        return f"{{ {', '.join(_pairs(value))} }}"
    return f'"{value}"' if isinstance(value, str) else str(value)
