"""What a shell offers for the values of options: names and statements of the jam on the line, read as it stands.

Nothing here complains: where the line or a file is not right, there is nothing to offer.
"""

from __future__ import annotations

import os
import tomllib
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
from click.shell_completion import CompletionItem, split_arg_string

from solver.book.folder import files_in
from solver.boxes import files_at_hand
from solver.gear.cables import KINDS

if TYPE_CHECKING:
    Items = list[CompletionItem[str]]
    Complete = Callable[[click.Context, click.Parameter, str], Items]

LARGEST = 1_000_000
"""Bytes of the largest file that is read; no jam file is larger."""

FRAME = ("title", "tempo", "leader", "listen")
"""What no jam is without."""

OF_JAMS = {"leader", "listen", "boxes", "part"}
"""Keys by which a jam is known, also one that is not finished."""


def nothing(_: click.Context, __: click.Parameter, ___: str) -> Items:
    """Nothing, where only the user knows."""
    return []


def files(_: click.Context, __: click.Parameter, incomplete: str) -> Items:
    """Files, as the shell itself completes them."""
    return [CompletionItem(incomplete, type="file")]


def parts(ctx: click.Context, _: click.Parameter, incomplete: str) -> Items:
    """The parts of the jam."""
    return _beginning(incomplete, _table(_jam(ctx), "part"))


def boxes(ctx: click.Context, _: click.Parameter, incomplete: str) -> Items:
    """The boxes of the jam that it can do without."""
    jam = _jam(ctx)
    return _beginning(incomplete, [name for name in _table(jam, "boxes") if not _needed(jam, name)])


def jams(ctx: click.Context, _: click.Parameter, incomplete: str) -> Items:
    """The jams of the set."""
    listed = _jam(ctx).get("jams")
    return _beginning(
        incomplete, [name for name in listed if isinstance(name, str)] if isinstance(listed, list) else []
    )


def statements(ctx: click.Context, _: click.Parameter, incomplete: str) -> Items:
    """The ids of what can be left out of the jam."""
    jam = _jam(ctx)
    return _beginning(incomplete, [_id(path) for path, _ in _paths(jam) if _can_go(jam, path)])


def values(ctx: click.Context, _: click.Parameter, incomplete: str) -> Items:
    """The ids of what can be given another value, each with an equals sign."""
    settable = [path for path, value in _paths(_jam(ctx)) if path[0] != "boxes" and not isinstance(value, dict)]
    return _beginning(incomplete, [f"{_id(path)}=" for path in settable])


def cables(_: click.Context, __: click.Parameter, incomplete: str) -> Items:
    """The kinds of cable, each with an equals sign."""
    return _beginning(incomplete, [f"{kind}=" for kind in KINDS])


def book_boxes(ctx: click.Context, _: click.Parameter, incomplete: str) -> Items:
    """The boxes of all jams in the folder on the line."""
    return _beginning(incomplete, sorted({name for jam in _book(ctx) for name in _table(jam, "boxes")}))


def book_slots(ctx: click.Context, _: click.Parameter, incomplete: str) -> Items:
    """The slots of all jams in the folder on the line."""
    return _beginning(incomplete, sorted({str(slot) for jam in _book(ctx) for slot in _table(jam, "recall").values()}))


def _book(ctx: click.Context) -> Iterator[dict[str, Any]]:
    named = [*ctx.args, ctx.params.get("folder")]  # click leaves it among the rest while an option waits for its value
    folder = next((Path(word) for word in named if word), Path())
    for file in files_in(folder, ".toml") if folder.is_dir() else ():
        data = _data(str(file))
        if data.keys() & OF_JAMS:
            yield data


def named_boxes(ctx: click.Context, _: click.Parameter, incomplete: str) -> Items:
    """Box files at hand that are not on the table, each with a name for it; behind an equals sign, a file or name."""
    name, sign, start = incomplete.partition("=")
    if sign:
        return _beginning(incomplete, [f"{name}={word}" for word in _of_boxes(ctx, start)])
    there = {Path(str(box)).name for box in _table(_jam(ctx), "boxes").values()}
    found = [(stem, word) for stem, word in _at_hand(ctx).items() if f"{stem}.toml" not in there]
    return _beginning(incomplete, [f"{stem}={word}" for stem, word in found])


def box_files(ctx: click.Context, _: click.Parameter, incomplete: str) -> Items:
    """TOML files, and the names of box files at hand."""
    return _beginning(incomplete, _of_boxes(ctx, incomplete))


def _of_boxes(ctx: click.Context, start: str) -> list[str]:
    return list(dict.fromkeys((*_files_from(start), *_at_hand(ctx))))


def _at_hand(ctx: click.Context) -> dict[str, str]:
    """What to type for each box file at hand, by its name: its path where it is beside the jam, else its name."""
    file = _jam_file(ctx)
    words: dict[str, str] = {}
    for where, found in files_at_hand(Path(file).parent if file is not None else Path()):
        if found.stem not in words and not _data(str(found)).keys() & (OF_JAMS | {"jams"}):
            words[found.stem] = str(found) if where == "beside" else found.stem
    return words


def _files_from(start: str) -> Iterator[str]:
    """The folders and TOML files whose paths begin so, folders with a slash behind them."""
    head, _, tail = start.rpartition("/")
    folder = start[: len(head) + 1] if "/" in start else ""
    where = Path(folder or ".").expanduser()
    for entry in sorted(where.iterdir()) if where.is_dir() else ():
        if entry.name.startswith(tail) and (tail or not entry.name.startswith(".")):
            if entry.is_dir():
                yield f"{folder}{entry.name}/"
            elif entry.suffix == ".toml":
                yield f"{folder}{entry.name}"


def _beginning(incomplete: str, words: Iterator[str] | Mapping[str, Any] | list[str]) -> Items:
    """The words that begin so; not one that is there already and waits for its value, nor one that no line holds."""
    found = [word for word in words if word.startswith(incomplete) and word.isprintable()]
    return [CompletionItem(word) for word in found if not (word == incomplete and word.endswith("="))]


def _jam_file(ctx: click.Context) -> str | None:
    """The first file on the line that is a jam, in front of the cursor or behind it."""
    line = os.environ.get("COMP_WHOLE") or os.environ.get("COMP_WORDS", "")
    named = [ctx.params.get("file"), *ctx.args, *split_arg_string(line)]
    candidates = [os.path.expanduser(str(word)) for word in named if word]  # noqa: PTH111  a path stays as typed
    return next((file for file in dict.fromkeys(candidates) if _data(file).keys() & OF_JAMS), None)


def _jam(ctx: click.Context) -> dict[str, Any]:
    file = _jam_file(ctx)
    return _data(file) if file is not None else {}


def _data(file: str) -> dict[str, Any]:
    """What a TOML file holds; nothing where it is none."""
    try:
        path = Path(file)
        if not path.is_file() or path.stat().st_size > LARGEST:
            return {}
        return tomllib.loads(path.read_text("utf-8-sig"))
    except (OSError, ValueError, RecursionError):
        return {}


def _table(jam: Mapping[str, Any], key: str) -> dict[str, Any]:
    value = jam.get(key)
    return value if isinstance(value, dict) else {}


def _paths(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[tuple[str | int, ...], Any]]:
    """Every statement of a jam's data with its value: tables and what stands in them, but no item of a list."""
    if path:
        yield path, value
    if isinstance(value, dict):
        for key, item in value.items():
            yield from _paths(item, (*path, key)) if path or key != "intent" else _intents(item)


def _intents(value: Any) -> Iterator[tuple[tuple[str | int, ...], Any]]:
    for place, intent in enumerate(value if isinstance(value, list) else ()):
        yield from _paths(intent, ("intent", place))


def _needed(jam: Mapping[str, Any], box: str) -> bool:
    return box in (jam.get("leader"), str(jam.get("listen")).partition("/")[0])


def _can_go(jam: Mapping[str, Any], path: tuple[str | int, ...]) -> bool:
    """Whether a jam without it is a jam: of an intent, all of it or one amount or shift can be left out."""
    if path[0] == "intent":
        return len(path) == 2 or (len(path) == 4 and path[2] in ("with", "shift"))
    if path[0] == "boxes":
        return len(path) == 2 and not _needed(jam, str(path[1]))
    return path[0] not in FRAME and path not in (("part",), ("recall",))


def _id(path: tuple[str | int, ...]) -> str:
    from solver.gear.words import dotted  # noqa: PLC0415  it loads more than most completions need

    return dotted(*path)
