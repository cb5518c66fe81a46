"""The page keeps to itself, fits the screen and the paper, reads well, and runs no script but its own."""

from pathlib import Path

import pytest

import solver
from benchmarks.rigs import SIZES, rig
from solver.flow.completed import completed
from solver.outcome import Planned
from tests.browser.conftest import A4, LETTER, Browser
from tests.browser.pages import page, planned
from tests.sheet.drawing.ten_boxes import ten_boxes
from tests.sheet.hostile import NAMES, hostile
from tests.sheet.low_tide import low_tide, plan_of

THREE_BOXES = ("crossed-oars", "harbour-lights", "one-ear-open", "rain-on-tin", "second-watch", "tide-tables")
SCREENS = ((360, 800), (1280, 900))


def shown(file: Path, browser: Browser) -> None:
    browser.open(file)
    assert browser.requests() == [file.as_uri()]
    assert browser.complaints() == []


def test_nothing_is_fetched_and_the_console_is_silent(browser: Browser, tmp_path: Path) -> None:
    shown(page(tmp_path, *planned("tide-tables")), browser)


def test_nothing_could_be_fetched(browser: Browser, tmp_path: Path) -> None:
    browser.open(page(tmp_path, low_tide(), plan_of()))
    script = """
        const done = arguments[arguments.length - 1];
        fetch("data:text/plain,x").then(() => done("fetched"), () => done("refused"));
    """
    assert browser.driver.execute_async_script(script) == "refused"
    script = """
        const done = arguments[arguments.length - 1];
        const one = document.createElement("script");
        one.textContent = "window.hacked = 1";
        document.body.append(one);
        setTimeout(() => done(window.hacked === undefined ? "refused" : "run"), 0);
    """
    assert browser.driver.execute_async_script(script) == "refused"


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("width", "height"), SCREENS)
def test_contrast_labels_and_landmarks(width: int, height: int, scheme: str, browser: Browser, tmp_path: Path) -> None:
    browser.screen(width, height, scheme)
    browser.open(page(tmp_path, *planned("tide-tables")))
    browser.all("#steps input")[2].click()
    paper = browser.run("return getComputedStyle(document.body).backgroundColor")
    assert (min(int(part) for part in paper[4:-1].split(",")) < 60) == (scheme == "dark")
    found = browser.accessibility()
    assert [(one["id"], one["nodes"][0]["html"]) for one in found["violations"]] == []
    assert {"color-contrast", "label", "landmark-one-main", "page-has-heading-one"} <= {
        one["id"] for one in found["passes"]
    }


@pytest.mark.parametrize(("width", "height"), [(320, 640), *SCREENS])
@pytest.mark.parametrize("what", ["tide-tables", "hostile", "ten boxes"])
def test_the_page_never_scrolls_sideways(what: str, width: int, height: int, browser: Browser, tmp_path: Path) -> None:
    made = {"hostile": hostile, "ten boxes": ten_boxes}.get(what, lambda: planned(what))
    browser.screen(width, height)
    browser.open(page(tmp_path, *made()))
    room = "const page = document.documentElement; return [page.scrollWidth <= page.clientWidth, page.clientWidth]"
    fits, found = browser.run(room)
    assert fits
    assert width - 20 < found <= width


@pytest.mark.parametrize("name", THREE_BOXES)
def test_three_boxes_fit_on_one_sheet(name: str, browser: Browser, tmp_path: Path) -> None:
    jam, plan = planned(name)
    assert len(jam.boxes) == 3
    browser.open(page(tmp_path, jam, plan))
    for paper in (A4, LETTER):
        (sheet,) = browser.print(paper).pages
        text = sheet.extract_text()
        assert jam.title in text
        assert all(part in text for part in plan.parts)


def test_three_full_boxes_fit_on_one_sheet(browser: Browser, tmp_path: Path) -> None:
    jam = rig(SIZES[0]).jam()
    outcome = solver.plan(jam, time_limit=None)
    assert isinstance(outcome, Planned)
    assert (len(jam.boxes), len(outcome.best.cables)) == (3, 6)
    browser.open(page(tmp_path, jam, outcome.best))
    assert len(browser.print(A4).pages) == 1


def test_paper_shows_empty_boxes_and_no_progress(browser: Browser, tmp_path: Path) -> None:
    browser.screen(1280, 900, media="print")
    browser.open(page(tmp_path, low_tide(), plan_of()))
    browser.run("document.querySelector('#steps input').checked = true")
    look = (
        "const c = getComputedStyle(document.querySelector('#steps input')); return [c.appearance, c.backgroundImage]"
    )
    assert browser.run(look) == ["none", "none"]
    assert not browser.all("#progress")[0].is_displayed()
    lines = "return getComputedStyle(document.querySelector('label:has(:checked) .does')).textDecorationLine"
    assert browser.run(lines) == "none"


def test_no_name_runs_a_script_or_becomes_an_element(browser: Browser, tmp_path: Path) -> None:
    jam, plan = hostile()
    shown(page(tmp_path, jam, plan), browser)
    assert browser.run("return window.hacked === undefined")
    assert len(browser.all("script")) == 1
    assert browser.all("img, svg[onload], a[href^='javascript']") == []
    assert browser.text("h1") == NAMES["Low Tide"]
    text = browser.run("return document.getElementById('steps').textContent")
    assert all(name in text for name in (NAMES["kick"], NAMES["bass"], NAMES["arp"], NAMES["IN 1"], NAMES["rust"]))
    assert all(caution in browser.text("#cautions") for caution in completed(jam, plan).cautions[-1:])
