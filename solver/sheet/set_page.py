"""The patch sheet of a set as one page: the wiring, a sheet for each jam, and a list of what is done between them."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Any

from markupsafe import Markup

from solver.documents import json_text, set_document
from solver.jam.jam import Jam
from solver.jam.sets import JamSet, by_hand
from solver.plans import Plan
from solver.set_plans import Between, SetPlan
from solver.sheet.cells import clean
from solver.sheet.page import rendered
from solver.sheet.sections import CABLE_HEADERS, PART_HEADERS, SAFETY, part_rows
from solver.sheet.set_text import NO_SLOT, change_words_of, set_cable_rows, set_cost_words
from solver.sheet.sheet_page import cleaned, frame_of_page, shown_group, width_of_drawing
from solver.sheet.step import ARROW, Group, Label, Name, New, Step
from solver.sheet.steps import plugging, recalling, setting_up, switching_on
from solver.sheet.text import frame
from solver.sheet.turns import stored_by_box


def set_page(of: JamSet, plan: SetPlan, drawn: str) -> str:
    """The page of a set's plan.

    Args:
        of: What the plan is for.
        plan: The plan, with its own plan of each jam completed.
        drawn: The drawing of the wiring, as an SVG document.
    """
    tables = list(of.jams.values())
    rows = set_cable_rows(of, plan)
    once = [
        *plugging(tables[0], plan.cables, rows),
        Group(("Switch on",), tuple(switching_on())),
        *stored_by_box(of, plan),
    ]
    between = dict(zip(list(of.jams)[1:], plan.between, strict=True))
    jams = [
        _jam(jam, plan.jams[file], between.get(file), [box for box in of.boxes if turn in by_hand(tables, box)])
        for turn, (file, jam) in enumerate(of.jams.items())
    ]
    changes = [
        shown_group(_changeover(number, jam, plan.jams[file], between.get(file)))
        for number, (file, jam) in enumerate(of.jams.items(), start=1)
    ]
    wiring = list(map(shown_group, once))
    every = [*wiring, *(group for jam in jams for group in jam["groups"]), *changes]
    return rendered(
        "set.html",
        **frame_of_page(json_text(set_document(of, plan))),
        title=clean(plan.title),
        said=f"{set_cost_words(plan)} {len(of.jams)} jams on one wiring.",
        drawing=Markup(drawn),
        wide=width_of_drawing(drawn),
        high=_high(len(rows), sum(len(group["steps"]) for group in wiring)),
        letters=8.8,
        count=sum(len(group["steps"]) for group in every),
        wiring=wiring,
        cable_headers=(*CABLE_HEADERS[:-1], "carries, by jam"),
        cables=cleaned(rows),
        jams=jams,
        part_headers=PART_HEADERS,
        changes=changes,
        cautions=SAFETY,
    )


def _high(cables: int, steps: int) -> int:
    """How high the drawing may be on paper, in mm, so that all of the wiring stands on one sheet where it can."""
    return max(80, 170 - 4 * cables - 2 * steps)


def _jam(jam: Jam, plan: Plan, between: Between | None, hands: Collection[str]) -> dict[str, Any]:
    """What stands on the sheet of one jam: what its project stores, and what hands move before it."""
    own = plan.model_copy(update={"settings": tuple(one for one in plan.settings if one.stored == "project")})
    first = Group(("Recall, and move by hand",), (*_projects(jam, plan, between), *_hands(between)))
    groups = [*([first] if first.steps else []), *setting_up(jam, own, "project", hands)]
    return {
        "title": clean(jam.title),
        "frame": clean(frame(jam)),
        "groups": list(map(shown_group, groups)),
        "parts": cleaned(part_rows(jam, plan)),
        "cautions": [clean(caution) for caution in plan.cautions],
    }


def _projects(jam: Jam, plan: Plan, between: Between | None) -> Iterator[Step]:
    """The projects to recall, those of boxes of which the jam names no slot among them."""
    yield from recalling(jam, plan)
    for box in between.unnamed if between is not None else ():
        yield Step(("Recall this jam's project on ", Name(box)), (NO_SLOT,))


def _hands(between: Between | None) -> Iterator[Step]:
    """What hands move before a jam."""
    for change in between.changes if between is not None else ():
        if change.by == "hand":
            was, value = change_words_of(change)
            where = (Name(change.box), f" {change.of} ", Label(change.where), ": ", Name(change.what), " ")
            yield Step((*where, Name(was), ARROW, New(value)), ("by hand: no project is recalled there",))


def _changeover(number: int, jam: Jam, plan: Plan, between: Between | None) -> Group:
    """What is done before a jam, on stage."""
    hands = tuple(_hands(between))
    none = "" if hands or between is None else ": nothing to move by hand"
    return Group((f"{number}. ", Name(jam.title), none), (*_projects(jam, plan, between), *hands))
