"""A plan as rows for a spreadsheet: one for each cable, one for each setting (RFC 4180)."""

import csv
import io
import re
from collections.abc import Iterator, Mapping, Sequence

from solver.flow.settings import MOVED
from solver.gear.words import DUCKING, Spot
from solver.jam.jam import Jam
from solver.plans import Plan, Treated
from solver.sheet.cells import clean
from solver.sheet.formats import BOM, CSV_HEADERS
from solver.sheet.sections import cable_rows

_FORMULA = re.compile(r"\s*(?:[=+@＝＋－＠]|-(?!\d+$))")
"""How a cell begins that spreadsheet programs reckon with; a plain number below 0 is none."""


def spreadsheet(jam: Jam, plan: Plan) -> str:
    """The cables in plugging order, then the settings of a plan that has been completed."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(CSV_HEADERS)
    writer.writerows(map(_harmless, (*_cables(jam, plan), *_settings(plan))))
    return BOM + text.getvalue()


def _cables(jam: Jam, plan: Plan) -> Iterator[Sequence[str]]:
    for row in cable_rows(jam, plan):
        yield ("cable", *row, *[""] * 9)


def _settings(plan: Plan) -> Iterator[Sequence[str]]:
    for number, one in enumerate(plan.settings, start=1):
        treated: Mapping[str, Treated] = plan.strips if one.of == "strip" else plan.engines
        key = treated[str(Spot(one.box, one.where))].key if one.what == DUCKING else None
        was = "" if one.was is None else str(one.was)
        unit = "semitones" if one.what == "shift" else "" if one.what in MOVED else "%"
        place = (one.box, one.of or "", one.where, one.what)
        yield ("setting", str(number), *[""] * 4, *place, was, str(one.value), unit, key or "", one.stored)


def _harmless(row: Sequence[str]) -> list[str]:
    """Cells that no spreadsheet program takes for a formula: an apostrophe in front makes them text."""
    return [f"'{cell}" if _FORMULA.match(cell) else cell for cell in map(clean, row)]
