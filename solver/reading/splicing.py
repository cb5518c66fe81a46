"""Bytes put into a TOML text and taken out of it: lines, tables with the empty lines around them, items in brackets."""

import re

from solver.reading.layout import Held, Span

_BLANK = re.compile(rb"[ \t]*(?:\r?\n|\Z)")
_BLANK_BEFORE = re.compile(rb"(?:\A|\n)([ \t]*\r?\n)\Z")
_NOTE = re.compile(rb"[ \t]*#")
_REST_OF_ITEM = re.compile(rb"[ \t]*,?[ \t]*(?:#[^\n]*|\r)?\n")
_TOP_NOTES = re.compile(rb"(?:[ \t]*#[^\n]*\n)+[ \t]*\r?\n")


def put_line(raw: bytes, at: int, line: bytes, end: bytes) -> bytes:
    """A line added below that of a byte, with the same indent."""
    line = _indent(raw, at) + line
    below = _line_stop(raw, at)
    if not raw.endswith(b"\n") and below == len(raw):
        return raw + end + line
    return raw[:below] + line + end + raw[below:]


def put_on_top(raw: bytes, line: bytes, end: bytes) -> bytes:
    """A line put before all tables, below the comments that the text begins with."""
    notes = _TOP_NOTES.match(raw)
    at = notes.end() if notes else 0
    return raw[:at] + line + end + (b"" if blank_at(raw, at) else end) + raw[at:]


def put_table(raw: bytes, at: int | None, lines: list[bytes], end: bytes) -> bytes:
    """Lines put below that of a byte and its comments, or at the end; one empty line parts them from what is around."""
    below = len(raw) if at is None else _after_notes(raw, _line_stop(raw, at))
    before, rest = raw[:below], raw[below:]
    closed = before.endswith(b"\n") or not before
    if not closed:
        before += end
    gap = b"" if not before or _blank_before(before, len(before)) else end
    tail = (end if blank_at(raw, below) else end + end) if rest else (end if closed else b"")
    return before + gap + end.join(lines) + tail + rest


def cut_line(raw: bytes, span: Span) -> bytes:
    """The lines of some bytes are left out."""
    return raw[: _line_start(raw, span.start)] + raw[_line_stop(raw, span.stop) :]


def cut_table(raw: bytes, span: Span) -> bytes:
    """The lines of some bytes are left out, and one empty line if there would be two in a row or one at an end."""
    above, below = _line_start(raw, span.start), _line_stop(raw, span.stop)
    gap = _blank_before(raw, above)
    if (gap or not above) and blank_at(raw, below):
        if below < len(raw):
            below = _line_stop(raw, below)
        else:
            above -= gap
    return raw[:above] + raw[below:]


def instead(raw: bytes, span: Span, new: bytes) -> bytes:
    """Some bytes instead of others."""
    return raw[: span.start] + new + raw[span.stop :]


def rest_of_line(raw: bytes, span: Span) -> Span:
    """The same bytes and all that follows on their last line, without the line end."""
    stop = _line_stop(raw, span.stop)
    return Span(span.start, max(span.stop, len(raw[:stop].removesuffix(b"\n").removesuffix(b"\r"))))


def put_item(raw: bytes, held: Held, item: bytes, end: bytes) -> bytes:
    """An item added behind the last between brackets; on a line of its own where the last has one."""
    inner = Span(held.span.start + 1, held.span.stop - 1)
    if not held.items:
        if not raw[slice(*inner)].strip(b" \t"):
            return instead(raw, inner, item if held.is_array else b" " + item + b" ")
        at = _line_start(raw, inner.stop)
        return raw[:at] + _indent(raw, at) + b"  " + item + end + raw[at:]
    last = held.items[-1][1]
    comma = next((comma for comma in held.commas if comma >= last.stop), None)
    line = _own_line(raw, held, last)
    if line is None or (comma is not None and comma >= line.stop):
        return raw[: last.stop] + b", " + item + raw[last.stop :]
    line_of_item = _indent(raw, last.start) + item + (b"" if comma is None else b",") + end
    comma_needed = b"," if comma is None else b""
    return raw[: last.stop] + comma_needed + raw[last.stop : line.stop] + line_of_item + raw[line.stop :]


def cut_item(raw: bytes, held: Held, place: int) -> bytes:
    """An item between brackets is left out with one comma, and with its line where it has one of its own."""
    for span in sorted(_of_item(raw, held, place), reverse=True):
        raw = raw[: span.start] + raw[span.stop :]
    return raw


def _of_item(raw: bytes, held: Held, place: int) -> list[Span]:
    item, last = held.items[place][1], place + 1 == len(held.items)
    following = held.span.stop if last else held.items[place + 1][1].start
    behind = next((comma for comma in held.commas if item.stop <= comma < following), None)
    before = next((comma for comma in reversed(held.commas) if comma < item.start), None)
    comma = before if behind is None else behind
    line = _own_line(raw, held, item)
    if line is not None:
        return [line] if comma is None or line.start <= comma < line.stop else [line, Span(comma, comma + 1)]
    spans = [item]
    if comma is not None:
        whole = Span(min(comma, item.start), max(comma + 1, item.stop))
        between = raw[comma + 1 : item.start] if behind is None else raw[item.stop : comma]
        spans = [item, Span(comma, comma + 1)] if between.strip() else [whole]
    if len(spans) > 1:
        return spans
    return [_tidied(raw, held, spans[0], last)]


def _tidied(raw: bytes, held: Held, span: Span, last: bool) -> Span:
    """The bytes of an item and its comma, with the blanks that nothing needs any more."""
    inner = Span(held.span.start + 1, held.span.stop - 1)
    outside = raw[inner.start : span.start] + raw[span.stop : inner.stop]
    if not outside.strip(b" \t"):
        return inner
    before = span.start - (len(raw[: span.start]) - len(raw[: span.start].rstrip(b" \t")))
    behind = span.stop + (len(raw[span.stop :]) - len(raw[span.stop :].lstrip(b" \t")))
    if before == _line_start(raw, span.start) and blank_at(raw, span.stop):
        return Span(before, _line_stop(raw, span.stop))
    if last or raw[behind : behind + 1] in (b"\r", b"\n", b"#"):
        return Span(before, span.stop)
    return Span(span.start, behind)


def _own_line(raw: bytes, held: Held, item: Span) -> Span | None:
    """The lines of an item of an array with nothing else on them but its comma and a comment."""
    start, rest = _line_start(raw, item.start), _REST_OF_ITEM.match(raw, item.stop)
    if rest is None or not held.is_array or raw[start : item.start].strip(b" \t"):
        return None
    return Span(start, rest.end())


def _line_start(raw: bytes, at: int) -> int:
    """Where the line of a byte begins."""
    return raw.rfind(b"\n", 0, at) + 1


def _line_stop(raw: bytes, at: int) -> int:
    """Where the line after that of a byte begins, or the text ends."""
    return raw.find(b"\n", at) + 1 or len(raw)


def _indent(raw: bytes, at: int) -> bytes:
    """The blanks that the line of a byte begins with."""
    line = raw[_line_start(raw, at) : _line_stop(raw, at)]
    return line[: len(line) - len(line.lstrip(b" \t"))]


def blank_at(raw: bytes, at: int) -> bool:
    """Whether nothing but blanks stands from a byte to the end of its line."""
    return _BLANK.match(raw, at) is not None


def _blank_before(raw: bytes, at: int) -> int:
    """The length of the empty line that ends just before a byte; 0 where there is none."""
    match = _BLANK_BEFORE.search(raw[:at])
    return len(match[1]) if match else 0


def _after_notes(raw: bytes, at: int) -> int:
    """The start of a line, moved behind the comments that follow without a gap and belong to no header below."""
    end = at
    while _NOTE.match(raw, end):
        end = _line_stop(raw, end)
    return end if blank_at(raw, end) else at
