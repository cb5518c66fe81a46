"""Ticks: shown, counted, remembered for their own plan, and possible with keys alone or without storage."""

from pathlib import Path

from selenium.webdriver.common.keys import Keys

from tests.browser.conftest import Browser
from tests.browser.pages import page, planned
from tests.sheet.low_tide import low_tide, plan_of

BOXES = "#steps input[type=checkbox]"


def ticked(browser: Browser) -> list[str]:
    return [box.get_attribute("id") for box in browser.all(BOXES) if box.is_selected()]


def test_ticks_are_counted_and_survive_a_reload(browser: Browser, tmp_path: Path) -> None:
    browser.open(page(tmp_path, *planned("tide-tables")))
    boxes = browser.all(BOXES)
    assert browser.text("#done") == f"0 of {len(boxes)} done"
    for box in (boxes[0], boxes[3]):
        box.click()
    assert browser.text("#done") == f"2 of {len(boxes)} done"
    assert browser.run("return document.getElementById('bar').value") == 2
    was = ticked(browser)
    browser.driver.refresh()
    assert ticked(browser) == was
    assert len(was) == 2
    assert browser.text("#done") == f"2 of {len(boxes)} done"


def test_another_plan_starts_without_ticks(browser: Browser, tmp_path: Path) -> None:
    first, second = page(tmp_path, low_tide(), plan_of()), page(tmp_path, low_tide(tempo=119), plan_of(), "other")
    browser.open(first)
    browser.all(BOXES)[0].click()
    browser.open(second)
    assert ticked(browser) == []
    browser.open(page(tmp_path, low_tide(), plan_of(), "copy"))
    assert len(ticked(browser)) == 1


def test_all_ticks_can_be_taken_back(browser: Browser, tmp_path: Path) -> None:
    browser.open(page(tmp_path, low_tide(), plan_of()))
    assert not browser.all("#clear")[0].is_displayed()
    for box in browser.all(BOXES):
        box.click()
    assert browser.text("#done") == f"All {len(browser.all(BOXES))} done"
    assert not browser.all("#next")[0].is_displayed()
    browser.all("#clear")[0].click()
    browser.driver.switch_to.alert.dismiss()
    assert len(ticked(browser)) == len(browser.all(BOXES))
    browser.all("#clear")[0].click()
    browser.driver.switch_to.alert.accept()
    browser.driver.refresh()
    assert ticked(browser) == []


def test_keys_alone_are_enough(browser: Browser, tmp_path: Path) -> None:
    browser.open(page(tmp_path, low_tide(), plan_of()))
    press = browser.driver.switch_to.active_element.send_keys
    press(Keys.TAB)
    assert browser.driver.switch_to.active_element.text == "Go to the steps"
    browser.driver.switch_to.active_element.send_keys(Keys.ENTER)
    browser.driver.switch_to.active_element.send_keys(Keys.TAB)
    at = browser.driver.switch_to.active_element
    assert at.get_attribute("id") == browser.all(BOXES)[0].get_attribute("id")
    assert browser.run("return getComputedStyle(document.activeElement).outlineStyle") == "solid"
    at.send_keys(Keys.SPACE)
    assert len(ticked(browser)) == 1
    browser.all("#next")[0].send_keys(Keys.ENTER)
    assert browser.driver.switch_to.active_element.get_attribute("id") == browser.all(BOXES)[1].get_attribute("id")


def test_without_storage_the_page_still_ticks_and_says_that_it_forgets(browser: Browser, tmp_path: Path) -> None:
    gone = "Object.defineProperty(window, 'localStorage', { get() { throw new Error('none'); } });"
    script = browser.driver.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": gone})
    try:
        browser.open(page(tmp_path, low_tide(), plan_of()))
        assert not browser.all("#memory")[0].is_displayed()
        browser.all(BOXES)[0].click()
        assert browser.text("#done").startswith("1 of ")
        assert browser.all("#memory")[0].is_displayed()
        assert browser.complaints() == []
    finally:
        browser.driver.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", script)


def test_what_is_kept_may_be_anything(browser: Browser, tmp_path: Path) -> None:
    file = page(tmp_path, low_tide(), plan_of())
    for kept in ("torn", "{}", "null", '["step-99-99", 3]'):
        browser.open(file)
        browser.run("localStorage.setItem('hardpan:' + document.documentElement.dataset.plan, arguments[0])", kept)
        browser.driver.refresh()
        assert (ticked(browser), browser.complaints()) == ([], [])


def test_without_scripts_the_steps_are_there_and_tick(browser: Browser, tmp_path: Path) -> None:
    browser.driver.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
    try:
        browser.open(page(tmp_path, low_tide(), plan_of()))
        browser.all(BOXES)[0].click()
        assert len(ticked(browser)) == 1
        assert not browser.all("#progress")[0].is_displayed()
    finally:
        browser.driver.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})
