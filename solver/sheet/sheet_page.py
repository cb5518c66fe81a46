"""The patch sheet as one page that needs nothing but itself: steps to tick off, parts, names and cautions."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Iterable, Sequence
from hashlib import sha256
from importlib.resources import files
from typing import Any

from markupsafe import Markup, escape

from solver.documents import json_text, plan_document
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.cells import clean
from solver.sheet.page import rendered
from solver.sheet.recall import RECALL_HEADERS, recall_rows
from solver.sheet.sections import PART_HEADERS, SAFETY, TIMED, TIMING_HEADERS, part_rows, timing_rows
from solver.sheet.step import ARROW, Group, Label, Name, New, Place, Words
from solver.sheet.steps import groups
from solver.sheet.text import cost_words, frame


def sheet_page(jam: Jam, plan: Plan, drawn: str) -> str:
    """The page of a plan.

    The browser keeps its ticks under a key that comes from the plan and its jam, so that another plan starts with none.

    Args:
        jam: what the plan is for.
        plan: one that has been completed.
        drawn: the drawing of the wiring, as an SVG document.
    """
    shown = [shown_group(group) for group in groups(jam, plan)]
    count = sum(len(group["steps"]) for group in shown)
    return rendered(
        "sheet.html",
        **frame_of_page(json_text(plan_document(jam, plan))),
        title=clean(plan.title),
        said=f"{cost_words(plan)} {clean(frame(jam))}",
        drawing=Markup(drawn),
        wide=width_of_drawing(drawn),
        **_on_paper(count),
        groups=shown,
        count=count,
        part_headers=PART_HEADERS,
        parts=cleaned(part_rows(jam, plan)),
        recall_headers=RECALL_HEADERS,
        recalls=cleaned(recall_rows(jam, plan)),
        timing_headers=TIMING_HEADERS,
        timing=cleaned(timing_rows(plan)),
        timed=TIMED,
        cautions=[clean(caution) for caution in (*plan.cautions, *SAFETY)],
    )


def frame_of_page(document: str) -> dict[str, object]:
    """What every page with ticks needs: style, script and its hash, and the key of its ticks, from what it shows."""
    script = _beside("sheet.js")
    return {
        "key": sha256(document.encode()).hexdigest()[:24],
        "script": Markup(script),
        "script_hash": f"sha256-{b64encode(sha256(script.encode()).digest()).decode()}",
        "style": Markup(_beside("sheet.css")),
    }


MOST_ON_ONE_SHEET = 44
"""Steps beyond which a plan takes more than one sheet of paper."""

_WIDTH = re.compile(r'viewBox="0 0 (\d+)')


def width_of_drawing(drawn: str) -> str:
    """How wide a drawing is at its own size, in pixels."""
    return str(_WIDTH.findall(drawn)[0])


def _on_paper(steps: int) -> dict[str, object]:
    """How high the drawing may be on paper, in mm, and how large the letters are, in pt.

    The more steps there are, the less room is left on one sheet; what cannot do with one has a sheet for its drawing.
    """
    if steps > MOST_ON_ONE_SHEET:
        return {"high": 240, "letters": 8.2}
    return {"high": min(92, max(54, 126 - 2 * steps)), "letters": 8.2 if steps <= 26 else 7.8 if steps <= 34 else 7.3}


def shown_group(group: Group) -> dict[str, Any]:
    """A group as the template shows it."""
    return {"title": _said(group.title), "steps": [(_said(step.does), _said(step.note)) for step in group.steps]}


def _said(words: Words) -> Markup:
    """Words with each name set apart, so that the direction of its script ends with it."""
    return Markup("").join(map(_piece, words))


def _piece(piece: str) -> Markup:
    if piece == ARROW:
        return _TO
    if not isinstance(piece, Name):
        return escape(piece)
    if isinstance(piece, Place):
        box, name = Spot.parse(clean(piece))
        return _AT.format(box, name)
    return Markup("<bdi{}>{}</bdi>").format(_CLASSES[type(piece)], clean(piece))


_CLASSES = {Name: Markup(""), Label: Markup(' class="label"'), New: Markup(' class="new"')}

_AT = Markup('<span class="at"><bdi>{}</bdi>/<bdi class="label">{}</bdi></span>')

_TO = Markup(' <span class="to" aria-hidden="true">→</span><span class="unseen">to</span>&nbsp;')
"""An arrow for the eye, a word for the ear."""


def cleaned(rows: Iterable[Sequence[str]]) -> list[list[str]]:
    """Rows whose cells break no line and hide nothing."""
    return [[clean(cell) for cell in row] for row in rows]


def _beside(name: str) -> str:
    """What stands in a file beside the templates."""
    return (files("solver.sheet") / "pages" / name).read_text("utf-8")
