"""The page of a set: one sheet of paper for the wiring, one a jam, one for what is done between them."""

from functools import cache
from pathlib import Path

import pytest

import solver
from solver.jam.sets import JamSet
from solver.outcome import PlannedSet
from solver.reading import read_set
from solver.set_plans import SetPlan
from solver.sheet.formats import SET_FORMATS
from tests.browser.conftest import A4, LETTER, Browser
from tests.showing import SCENARIOS


@cache
def _planned(name: str) -> tuple[JamSet, SetPlan]:
    of = read_set(SCENARIOS / "sets" / f"{name}.toml")
    outcome = solver.plan(of, time_limit=None)
    assert isinstance(outcome, PlannedSet)
    return of, outcome.best


def _page(folder: Path, name: str) -> Path:
    file = folder / f"{name}.html"
    file.write_text(SET_FORMATS[".html"](*_planned(name)), encoding="utf-8")
    return file


@pytest.mark.parametrize(("name", "jams"), [("first-watch", 3), ("eight-bells", 8)])
@pytest.mark.parametrize("paper", [A4, LETTER], ids=["A4", "Letter"])
def test_a_sheet_for_the_wiring_one_a_jam_and_one_between_them(
    name: str, jams: int, paper: tuple[float, float], browser: Browser, tmp_path: Path
) -> None:
    browser.open(_page(tmp_path, name))
    sheets = browser.print(paper).pages
    assert len(sheets) == jams + 2
    titles = [jam.title for jam in _planned(name)[0].jams.values()]
    for number, (sheet, title) in enumerate(zip(sheets[1:-1], titles, strict=True), start=1):
        assert f"{number}. {title}" in sheet.extract_text()
    assert "Between the jams" in sheets[-1].extract_text()


def test_nothing_is_fetched_and_the_console_is_silent(browser: Browser, tmp_path: Path) -> None:
    file = _page(tmp_path, "first-watch")
    browser.open(file)
    assert browser.requests() == [file.as_uri()]
    assert browser.complaints() == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("width", "height"), [(360, 800), (1280, 900)])
def test_contrast_labels_and_width(width: int, height: int, scheme: str, browser: Browser, tmp_path: Path) -> None:
    browser.screen(width, height, scheme)
    browser.open(_page(tmp_path, "first-watch"))
    found = browser.accessibility()
    assert [(one["id"], one["nodes"][0]["html"]) for one in found["violations"]] == []
    assert browser.run("return document.documentElement.scrollWidth") <= width


def test_links_lead_to_each_jam_and_ticks_survive_a_reload(browser: Browser, tmp_path: Path) -> None:
    file = _page(tmp_path, "first-watch")
    browser.open(file)
    links = browser.run("return [...document.querySelectorAll('nav a')].map((a) => a.hash)")
    assert links == ["#steps", "#jam-1", "#jam-2", "#jam-3", "#changes", "#cautions"]
    assert browser.run("return [...document.querySelectorAll('nav a')].every((a) => document.querySelector(a.hash))")
    browser.run("document.querySelector('#jam-2 input').click()")
    browser.open(file)
    assert browser.run("return document.querySelector('#jam-2 input').checked")
    assert not browser.run("return document.querySelector('#jam-1 input').checked")
