"""Where everything stands in a TOML text, in bytes: tables, keys, values, and what is between brackets."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

from solver.reading.lines import KEYS, NOT_ITEMS, key_of, table_path, tree

if TYPE_CHECKING:
    from tree_sitter import Node

Path = tuple[str | int, ...]


class Span(NamedTuple):
    """Bytes from ``start`` to just before ``stop``."""

    start: int
    stop: int


class Pair(NamedTuple):
    """A key with its value; ``base`` is the table that the key is written in."""

    base: Path
    path: Path
    span: Span


class Held(NamedTuple):
    """An array or inline table: its brackets, what it holds and the commas between."""

    span: Span
    items: tuple[tuple[Path, Span], ...]
    commas: tuple[int, ...]
    is_array: bool


@dataclass
class Section:
    """A table with a header, or the top of the file; ``span`` goes from its header through its last value."""

    path: Path
    span: Span
    pairs: list[Pair] = field(default_factory=list)


class Layout:
    """Where everything stands in one text.

    Raises:
        ValueError: some of the text cannot be told apart.
    """

    def __init__(self, raw: bytes) -> None:
        self.raw = raw
        self.sections = [Section((), Span(0, 0))]
        self.pairs: list[Pair] = []
        self.values: dict[Path, Span] = {}
        self.held: dict[Path, Held] = {}
        root = tree(raw.decode())
        if root.has_error:
            raise ValueError("its layout cannot be told for sure")
        counts: dict[Path, int] = {}
        for node in root.named_children:
            if node.type == "pair":
                self._add(node, self.sections[0])
            elif node.type in ("table", "table_array_element"):
                self._table(node, counts)

    @property
    def line_end(self) -> bytes:
        """What ends most lines."""
        return b"\r\n" if self.raw.count(b"\r\n") * 2 > self.raw.count(b"\n") else b"\n"

    def under(self, path: Path) -> Iterator[Section]:
        """The tables with a header of their own that are at a path or below it, in file order."""
        return (section for section in self.sections[1:] if section.path[: len(path)] == path)

    def loose(self, path: Path) -> Iterator[Pair]:
        """The pairs that write something at a path or below it from a table above it, in file order."""
        deep = len(path)
        return (pair for pair in self.pairs if pair.path[:deep] == path and len(pair.base) < deep)

    def _table(self, node: Node, counts: dict[Path, int]) -> None:
        key = next(child for child in node.named_children if child.type in KEYS)
        closing = next(child for child in node.children if child.type in ("]", "]]"))
        path = table_path(key_of(key), node.type == "table_array_element", counts)
        section = Section(path, Span(node.start_byte, closing.end_byte))
        self.sections.append(section)
        for child in node.named_children:
            if child.type == "pair":
                self._add(child, section)

    def _add(self, node: Node, section: Section) -> None:
        pair = self._pair(node, section.path)
        section.pairs.append(pair)
        section.span = section.span._replace(stop=pair.span.stop)

    def _pair(self, node: Node, base: Path) -> Pair:
        """Note a pair with all that is in its value, without recursion: files may nest deeply."""
        first, stack = self._noted(node, base)
        while stack:
            value, path = stack.pop()
            items: list[tuple[Path, Span]] = []
            for child in value.named_children:
                if child.type == "pair":
                    pair, inner = self._noted(child, path)
                    items.append((pair.path, pair.span))
                    stack += inner
                elif child.type not in NOT_ITEMS:
                    items.append(((*path, len(items)), _span(child)))
                    stack += self._seen(child, items[-1][0])
            commas = tuple(child.start_byte for child in value.children if child.type == ",")
            self.held[path] = Held(_span(value), tuple(items), commas, value.type == "array")
        return first

    def _noted(self, node: Node, base: Path) -> tuple[Pair, list[tuple[Node, Path]]]:
        key, value = (child for child in node.named_children if child.type not in NOT_ITEMS)
        pair = Pair(base, (*base, *key_of(key)), Span(key.start_byte, value.end_byte))
        self.pairs.append(pair)
        return pair, self._seen(value, pair.path)

    def _seen(self, value: Node, path: Path) -> list[tuple[Node, Path]]:
        """Note where a value stands; return it if there is more in it."""
        self.values[path] = _span(value)
        return [(value, path)] if value.type in ("array", "inline_table") else []


def _span(node: Node) -> Span:
    return Span(node.start_byte, node.end_byte)
