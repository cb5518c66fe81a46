"""A TOML text changed in place, step by step: what no step speaks of stays as it was, to the byte."""

import tomllib
from collections.abc import Iterator, Sequence
from typing import Any

from solver.gear.words import dotted
from solver.jam.editing import Cut, Path, Put, Step, after
from solver.reading.layout import Layout, Pair, Section
from solver.reading.splicing import (
    cut_item,
    cut_line,
    cut_table,
    instead,
    put_item,
    put_line,
    put_on_top,
    put_table,
    rest_of_line,
)
from solver.reading.writing import exact

_TABLED = "part"
"""Each table in this one has a header of its own: [part.NAME]."""

_NONE = object()
_OTHERWISE = "the way in which the file writes it cannot be changed in place"


class RewriteError(ValueError):
    """A step that cannot be carried out in a text without harm: what it is about, and why not."""

    def __init__(self, path: Path, why: str) -> None:
        super().__init__(f"{dotted(*path) or 'the file'}: {why}")
        self.path, self.why = path, why


def rewritten(text: str, steps: Sequence[Step]) -> str:
    """The text of a TOML file after some steps; every byte that they do not speak of stays as it was.

    What is new stands behind its like: a key below the last of its table, a table below the last of its kind or at
    the end of the file. What is left out takes its line and the comment on it along; comments on lines of their own
    above and below a table stay.

    Raises:
        RewriteError: the text is no TOML, what a step is about is not there, or the text is laid out in a way in
            which the step cannot be carried out safely. The first such step is named.
    """
    path: Path = ()
    try:
        raw = text.encode()
        for step in _in_turn(steps):
            path = step.path
            wanted = after(_read(raw), [step])
            raw = _done(raw, step)
            if _read(raw) != wanted:
                raise RewriteError(path, _OTHERWISE)
        path = ()
        if _read(raw) != after(_read(text.encode()), steps):
            raise RewriteError(path, "these changes cannot be made together")
    except RewriteError as error:
        raise RewriteError(path, error.why) from None
    except LookupError:
        raise RewriteError(path, "there is nothing of that name to change") from None
    except (ValueError, TypeError, AttributeError, RecursionError):
        raise RewriteError(path, _OTHERWISE) from None
    return raw.decode()


def _in_turn(steps: Sequence[Step]) -> Iterator[Step]:
    """The steps in the order in which each one's path still holds: the last of a list is left out first."""
    yield from (step for step in steps if isinstance(step, Put))
    yield from map(Cut, sorted({step.path for step in steps if isinstance(step, Cut)}, reverse=True))


def _read(raw: bytes) -> dict[str, Any]:
    return tomllib.loads(raw.decode())


def _done(raw: bytes, step: Step) -> bytes:
    if any(isinstance(part, int) and part < 0 for part in step.path):
        raise RewriteError(step.path, "list items are counted from the first")
    if isinstance(step, Cut):
        return _cut(raw, step.path)
    old = _at(_read(raw), step.path)
    if old is not _NONE and exact(old) == exact(step.value):
        return raw
    layout = Layout(raw)
    if step.path in layout.values:
        return instead(raw, layout.values[step.path], exact(step.value).encode())
    finer = list(_first_lack(raw, step) if old is _NONE else _differences(step.path, old, step.value))
    if finer == [step]:
        return _put_new(layout, step.path, step.value)
    for smaller in finer:
        raw = _done(raw, smaller)
    return raw


def _at(data: Any, path: Path) -> Any:
    for part in path:
        if isinstance(data, list) if isinstance(part, int) else isinstance(data, dict):
            inside = part < len(data) if isinstance(part, int) else part in data
            data = data[part] if inside else _NONE
        else:
            return _NONE
    return data


def _differences(path: Path, old: Any, new: Any) -> Iterator[Step]:
    """The steps from one value to another, for a value that is written in several places."""
    if isinstance(old, dict) and isinstance(new, dict):
        yield from (Put((*path, key), value) for key, value in new.items())
        yield from (Cut((*path, key)) for key in old if key not in new)
    elif isinstance(old, list) and isinstance(new, list | tuple) and all(isinstance(item, dict) for item in new):
        yield from (Put((*path, i), value) for i, value in enumerate(new))
        yield from (Cut((*path, i)) for i in reversed(range(len(new), len(old))))
    else:
        yield from (Cut(path), Put(path, new))


def _first_lack(raw: bytes, step: Put) -> Iterator[Step]:
    """The steps that make something new: the tables around it that are not there come along with it."""
    data, path, value = _read(raw), step.path, step.value
    while len(path) > 1 and _at(data, path[:-1]) is _NONE:
        if isinstance(path[-1], int) and len(path) == 2 and isinstance(value, dict):
            break
        path, value = path[:-1], [value] if isinstance(path[-1], int) else {path[-1]: value}
    inner = value.values() if isinstance(value, dict) else value if isinstance(value, list | tuple) else ()
    if len(path) == 1 and inner and all(isinstance(item, dict) for item in inner):
        if isinstance(value, dict) and path[0] == _TABLED:
            yield from (Put((*path, key), item) for key, item in value.items())
            return
        if not isinstance(value, dict):
            yield from (Put((*path, i), item) for i, item in enumerate(value))
            return
    yield Put(path, value)


def _put_new(layout: Layout, path: Path, value: Any) -> bytes:
    raw, end, above, key = layout.raw, layout.line_end, path[:-1], path[-1]
    if above in layout.held:
        held = layout.held[above]
        return put_item(raw, held, exact(value).encode() if held.is_array else _line((key,), value), end)
    beside = list(layout.loose(above))
    if beside:
        return _put_beside(layout, beside[-1], _line(path[len(beside[-1].base) :], value))
    if isinstance(value, dict) and (isinstance(key, int) or above in ((), (_TABLED,))):
        header, table = (b"[[%s]]", above) if isinstance(key, int) else (b"[%s]", path)
        return _put_table(layout, table, header, above, value)
    section = next((section for section in reversed(layout.sections) if section.path == above), None)
    if section is None:
        return _put_table(layout, above, b"[%s]", (), {key: value})
    line, last = _line((key,), value), section.span.stop
    return put_line(raw, last, line, end) if last else put_on_top(raw, line, end)


def _put_table(layout: Layout, path: Path, header: bytes, kin: Path, value: Any) -> bytes:
    """A table with a header put below the last of its kin, or at the end of the file."""
    names = dotted(*(part for part in path if isinstance(part, str)))
    last = max((section.span.stop for section in layout.under(kin)), default=None) if kin else None
    lines = [header % names.encode(), *(_line((key,), item) for key, item in value.items())]
    return put_table(layout.raw, last, lines, layout.line_end)


def _put_beside(layout: Layout, pair: Pair, line: bytes) -> bytes:
    held = layout.held.get(pair.base)
    if held is not None:
        return put_item(layout.raw, held, line, layout.line_end)
    return put_line(layout.raw, pair.span.stop, line, layout.line_end)


def _line(path: Path, value: Any) -> bytes:
    return f"{dotted(*path)} = {exact(value)}".encode()


def _cut(raw: bytes, path: Path) -> bytes:
    layout, above = Layout(raw), path[:-1]
    held = layout.held.get(above)
    if held is not None and held.is_array:
        return cut_item(raw, held, int(path[-1]))
    sections, loose = list(layout.under(path)), list(layout.loose(path))
    beside = [piece.path for found in (layout.under(above), layout.loose(above)) for piece in found]
    alone = bool(above) and held is None and all(other[: len(path)] == path for other in beside)
    for section in reversed(sections):
        stub = alone and not loose and section is sections[0] and isinstance(path[-1], str)
        raw = _cut_section(raw, section, above if stub else ())
    for left in reversed(range(len(loose))):
        layout = Layout(raw)
        *_, pair = layout.loose(path)
        raw = _cut_pair(layout, pair, above if alone and not left else ())
    return _done(raw, Put(above, [])) if alone and isinstance(path[-1], int) else raw


def _cut_section(raw: bytes, section: Section, stub: Path) -> bytes:
    """A table is left out; the header of one that nothing else would write any more stands in its place."""
    if not stub:
        return cut_table(raw, section.span)
    names = dotted(*(part for part in stub if isinstance(part, str)))
    return instead(raw, rest_of_line(raw, section.span), f"[{names}]".encode())


def _cut_pair(layout: Layout, pair: Pair, stub: Path) -> bytes:
    """A key is left out; the empty table that nothing else would write any more stands in its place."""
    held = layout.held.get(pair.base)
    if stub:
        span = rest_of_line(layout.raw, pair.span) if held is None else pair.span
        return instead(layout.raw, span, _line(stub[len(pair.base) :], {}))
    if held is None:
        return cut_line(layout.raw, pair.span)
    place = [span for _, span in held.items].index(pair.span)
    return cut_item(layout.raw, held, place)
