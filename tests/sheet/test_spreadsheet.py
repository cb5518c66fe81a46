"""The table for spreadsheets, read back with the csv module."""

import csv
import io

import pytest

from solver.flow.completed import completed
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.cells import clean
from solver.sheet.formats import BOM, CSV_HEADERS
from solver.sheet.spreadsheet import spreadsheet
from tests.sheet.hostile import NAMES, hostile
from tests.sheet.low_tide import JAM, PLAN, low_tide, plan_of, renamed


def rows(jam: Jam, plan: Plan) -> list[dict[str, str]]:
    text = spreadsheet(jam, plan).encode().decode("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))


def test_there_is_a_row_for_each_cable_and_each_setting() -> None:
    plan = plan_of()
    found = rows(low_tide(), plan)
    assert [row["row"] for row in found] == ["cable"] * 3 + ["setting"] * len(plan.settings)
    first = {key: value for key, value in found[0].items() if value}
    assert first == {
        **{"row": "cable", "number": "1", "cable": "6.35 mono"},
        **{"from": "barge/L/MONO", "to": "tiller/IN 1", "carries": "bass"},
    }
    told = [(row["box"], row["of"], row["where"], row["what"], row["was"], row["value"]) for row in found[3:]]
    assert told == [
        (one.box, one.of, one.where, one.what, "" if one.was is None else str(one.was), str(one.value))
        for one in plan.settings
    ]
    assert [(row["value"], row["unit"], row["key"]) for row in found if row["unit"]] == [
        ("-12", "semitones", ""),
        ("30", "%", "kick"),
        ("20", "%", ""),
    ]


def test_it_is_written_as_the_standard_says() -> None:
    text = spreadsheet(low_tide(), plan_of())
    assert text.startswith(BOM + ",".join(CSV_HEADERS) + "\r\n")
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")


def test_every_row_has_every_cell_whatever_the_names() -> None:
    jam, plan = hostile()
    found = rows(jam, completed(jam, plan))
    assert all(None not in row and None not in row.values() for row in found)
    assert found[0]["from"] == f"{NAMES['barge']}/L/MONO"


@pytest.mark.parametrize("name", ["=1+1", "+cmd|'calc'!A0", "-2+3", "@SUM(A1)", " =1", "\t=1", "＝1", "-x"])
def test_no_cell_is_a_formula(name: str) -> None:
    names = {"kick": name, "tiller": name, "EXT 1": name}
    jam, plan = Jam.model_validate(renamed(JAM, names)), Plan.from_json(renamed(PLAN, names))
    cells = [cell for row in rows(jam, plan) for cell in row.values()]
    assert not [cell for cell in cells if cell.lstrip().startswith(tuple("=+-@＝")) and cell != "-12"]
    assert f"'{clean(name)}" in cells
