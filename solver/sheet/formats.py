"""The files that a plan can be exported to, by their ending. What makes one is loaded when it is asked for."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from solver.documents import is_plan, json_text, plan_document, set_document
from solver.flow.completed import completed, completed_set
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.plans import Plan
from solver.set_plans import SetPlan

MARKDOWN_MARK = "<!-- made by hardpan -->"
"""The first line of a sheet in Markdown, by which it is known; no reader shows it."""
BOM = "\ufeff"
"""First in a spreadsheet's file, for without it the letters are taken for those of the user's own country."""
CSV_HEADERS = (
    *("row", "number", "cable", "from", "to", "carries"),
    *("box", "of", "where", "what", "was", "value", "unit", "key", "stored by"),
)
LINE_CHECK = "line check by hardpan"
"""A text in a MIDI file, by which it is known."""
TEXT_WIDTH = 80
"""Cells a line of a sheet in plain text: what fits on paper."""


class Format(NamedTuple):
    """One kind of file.

    Attributes:
        example: A name that such a file may have; without its ending, it says what it is.
        made: Makes it of a jam and its plan.
        ours: Whether a file has been made like that, so that it may be replaced.
    """

    example: str
    made: Callable[[Jam, Plan], str | bytes]
    ours: Callable[[bytes], bool]


def _html(jam: Jam, plan: Plan) -> str:
    from solver.sheet.drawing import drawing  # noqa: PLC0415  only a page needs templates and a drawing
    from solver.sheet.sheet_page import sheet_page  # noqa: PLC0415

    return sheet_page(jam, completed(jam, plan), drawing(jam, plan, heading=False))


def _md(jam: Jam, plan: Plan) -> str:
    from solver.sheet.markdown import markdown  # noqa: PLC0415

    return markdown(jam, completed(jam, plan))


def _txt(jam: Jam, plan: Plan) -> str:
    from solver.sheet.text import sheet_text  # noqa: PLC0415

    return sheet_text(jam, completed(jam, plan), TEXT_WIDTH)


def _csv(jam: Jam, plan: Plan) -> str:
    from solver.sheet.spreadsheet import spreadsheet  # noqa: PLC0415

    return spreadsheet(jam, completed(jam, plan))


def _json(jam: Jam, plan: Plan) -> str:
    return json_text(plan_document(jam, plan))


def _svg(jam: Jam, plan: Plan) -> str:
    from solver.sheet.drawing import drawing  # noqa: PLC0415

    return drawing(jam, plan)


def _mid(jam: Jam, plan: Plan) -> bytes:
    from solver.sheet.midi_file import midi_file  # noqa: PLC0415

    return midi_file(jam, plan)


def _set_html(of: JamSet, plan: SetPlan) -> str:
    from solver.sheet.set_page import set_page  # noqa: PLC0415  only a page needs templates and a drawing

    whole = completed_set(of, plan)
    return set_page(of, whole, _set_drawing(of, whole, heading=False))


def _set_txt(of: JamSet, plan: SetPlan) -> str:
    from solver.sheet.set_text import set_sheet_text  # noqa: PLC0415

    return set_sheet_text(of, completed_set(of, plan), TEXT_WIDTH)


def _set_svg(of: JamSet, plan: SetPlan) -> str:
    return _set_drawing(of, plan)


def _set_drawing(of: JamSet, plan: SetPlan, heading: bool = True) -> str:
    """The wiring of a set: its cables, without the parts, which are others in each jam."""
    from solver.sheet.drawing import drawing  # noqa: PLC0415

    jam = next(iter(of.jams.values())).changed(title=of.title, parts={}, intents=())
    return drawing(jam, Plan(title=plan.title, cables=plan.cables, parts={}), heading=heading)


def _set_json(of: JamSet, plan: SetPlan) -> str:
    return json_text(set_document(of, plan))


def _is_page(raw: bytes) -> bool:
    return b'<meta name="generator" content="hardpan">' in raw[:1000]


def _begins(*starts: str) -> Callable[[bytes], bool]:
    return lambda raw: any(raw.startswith(start.encode()) for start in starts)


def _is_text(raw: bytes) -> bool:
    return b"\n\nCables, in plugging order\n-------------------------\n" in raw


def _is_line_check(raw: bytes) -> bool:
    return raw.startswith(b"MThd") and LINE_CHECK.encode() in raw[:1000]


FORMATS = {
    ".html": Format("page.html", _html, _is_page),
    ".md": Format("sheet.md", _md, _begins(f"{MARKDOWN_MARK}\n")),
    ".txt": Format("sheet.txt", _txt, _is_text),
    ".csv": Format("table.csv", _csv, _begins(BOM + ",".join(CSV_HEADERS))),
    ".svg": Format("drawing.svg", _svg, _begins('<svg xmlns="http://www.w3.org/2000/svg" class="hp-drawing"')),
    ".mid": Format("line-check.mid", _mid, _is_line_check),
    ".json": Format("plan.json", _json, is_plan),
}
"""Every ending, with its kind of file."""

SET_FORMATS: dict[str, Callable[[JamSet, SetPlan], str]] = {
    ".html": _set_html,
    ".txt": _set_txt,
    ".svg": _set_svg,
    ".json": _set_json,
}
"""The endings that a set's plan can be exported to, and what makes each; they are known as the files of a jam are."""
