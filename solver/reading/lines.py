"""The line of every key in a TOML text."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tree_sitter import Node

_Path = tuple[str | int, ...]
KEYS = ("bare_key", "quoted_key", "dotted_key")
"""What the tree calls keys."""
NOT_ITEMS = ("comment", "ERROR")
"""What may stand among the items of an array or table."""
DEEPEST = 12
"""Steps of the longest path that gets a line of its own; a longer one has that of the nearest path above it."""


def lines(text: str) -> dict[_Path, int]:
    """The line, counted from 1, of every key, table and list item of a TOML text.

    Keys are paths from the top of the file; a number in a path counts list items from 0.
    """
    found: dict[_Path, int] = {(): 1}
    counts: dict[_Path, int] = {}
    for node in tree(text).named_children:
        if node.type == "pair":
            _walk(node, (), found)
            continue
        if node.type not in ("table", "table_array_element"):
            continue
        children = node.named_children
        if not children or children[0].type not in KEYS:
            continue
        path = table_path(key_of(children[0]), node.type == "table_array_element", counts)
        _note(found, (), path, _line(node))
        for child in children[1:]:
            _walk(child, path, found)
    return found


def tree(text: str) -> Node:
    """The syntax tree of a TOML text, in bytes of UTF-8."""
    import tree_sitter_toml  # noqa: PLC0415  only a message about a file or a change to it asks for its layout
    from tree_sitter import Language, Parser  # noqa: PLC0415

    return Parser(Language(tree_sitter_toml.language())).parse(text.encode()).root_node


def line_of(known: Mapping[_Path, int], path: _Path) -> int:
    """The line of a path, or of the nearest one above it that is known."""
    while path and path not in known:
        path = path[:-1]
    return known.get(path, 1)


def _line(node: Node) -> int:
    return int(node.start_point[0]) + 1


def table_path(key: tuple[str, ...], repeated: bool, counts: dict[_Path, int]) -> _Path:
    """The path of a table header; each list of tables on the way stands for its last table."""
    path: _Path = ()
    for i, part in enumerate(key):
        path = (*path, part)
        if repeated and i == len(key) - 1:
            counts[path] = counts.get(path, -1) + 1
        if path in counts:
            path = (*path, counts[path])
    return path


def key_of(node: Node) -> tuple[str, ...]:
    """The names of a key, unquoted."""
    parts: list[str] = []
    stack = [node]
    while stack:
        at = stack.pop()
        if at.type == "dotted_key":
            stack.extend(reversed(at.named_children))
        elif at.text is not None:
            parts.append(_unquoted(at.text.decode()) if at.type == "quoted_key" else at.text.decode())
    return tuple(parts)


def _unquoted(text: str) -> str:
    try:
        return str(tomllib.loads(f"key = {text}")["key"])
    except tomllib.TOMLDecodeError:
        return text


def _note(found: dict[_Path, int], base: _Path, path: _Path, line: int) -> None:
    """Note a path and the tables on its way that nothing else has named."""
    for end in range(len(base) + 1, min(len(path), DEEPEST) + 1):
        found.setdefault(path[:end], line)


def _walk(node: Node, base: _Path, found: dict[_Path, int]) -> None:
    """Note all keys and items in a pair or value, without recursion: files may nest deeply."""
    stack = [(node, base)]
    while stack:
        at, path = stack.pop()
        if len(path) >= DEEPEST:
            continue
        if at.type == "pair":
            children = [child for child in at.named_children if child.type not in NOT_ITEMS]
            if children and children[0].type in KEYS:
                inner = (*path, *key_of(children[0]))
                _note(found, path, inner, _line(at))
                stack.extend((child, inner) for child in children[1:])
        elif at.type == "inline_table":
            stack.extend((child, path) for child in reversed(at.named_children))
        elif at.type == "array":
            items = [child for child in at.named_children if child.type not in NOT_ITEMS]
            for i, item in enumerate(items):
                found[(*path, i)] = _line(item)
                if item.type in ("array", "inline_table"):
                    stack.append((item, (*path, i)))
