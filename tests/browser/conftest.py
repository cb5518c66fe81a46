"""One headless Chromium for all tests of a process; where there is none, they are skipped."""

import base64
import io
import json
import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_core_python.selenium import Axe
from pypdf import PdfReader
from selenium import webdriver
from selenium.webdriver.chrome.service import Service

CHROMIUM, DRIVER = shutil.which("chromium"), shutil.which("chromedriver")
WHY = "needs Chromium and its driver (Debian: apt-get install chromium chromium-driver)"
SWITCHES = (
    *("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"),
    *("--disable-background-networking", "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage"),
)
A4, LETTER = (8.27, 11.69), (8.5, 11.0)
"""Paper in inches, as the browser counts it."""


class Browser:
    """What the tests do with the browser, and what they see of it."""

    def __init__(self, driver: webdriver.Chrome) -> None:
        self.driver = driver

    def open(self, page: Path) -> None:
        """Open a page from its file; what was told of an earlier one is forgotten."""
        self.driver.get("about:blank")
        self.requests()
        self.complaints()
        self.driver.get(page.as_uri())

    def run(self, script: str, *given: Any) -> Any:
        """What a script in the page returns."""
        return self.driver.execute_script(script, *given)

    def all(self, selector: str) -> list[Any]:
        """Every element that a selector finds."""
        return list(self.driver.find_elements("css selector", selector))

    def text(self, selector: str) -> str:
        """What the first such element shows."""
        return str(self.all(selector)[0].text)

    def screen(self, width: int, height: int, scheme: str = "light", media: str = "") -> None:
        """Show pages on a screen of this size, in a light or dark scheme, or as if on paper."""
        size = {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": width < 600}
        self.driver.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)
        features = [{"name": "prefers-color-scheme", "value": scheme}]
        self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": media, "features": features})

    def print(self, paper: tuple[float, float]) -> PdfReader:
        """The page on paper, with the margins that it asks for."""
        width, height = paper
        asked = {"paperWidth": width, "paperHeight": height, "preferCSSPageSize": True}
        done = self.driver.execute_cdp_cmd("Page.printToPDF", asked)
        return PdfReader(io.BytesIO(base64.b64decode(done["data"])))

    def requests(self) -> list[str]:
        """The address of everything that was asked for since the last time."""
        told = [json.loads(entry["message"])["message"] for entry in self._log("performance")]
        return [one["params"]["request"]["url"] for one in told if one["method"] == "Network.requestWillBeSent"]

    def complaints(self) -> list[str]:
        """Everything on the console since the last time."""
        return [str(entry["message"]) for entry in self._log("browser")]

    def _log(self, kind: str) -> list[dict[str, Any]]:
        return list(self.driver.get_log(kind))  # type: ignore[no-untyped-call]

    def accessibility(self) -> dict[str, Any]:
        """What axe-core finds: ``violations``, ``passes`` and more, each a list."""
        found: dict[str, Any] = Axe().run(self.driver)
        return found


@pytest.fixture(scope="session")
def started(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """The browser, as it was started."""
    if CHROMIUM is None or DRIVER is None:
        assert not os.environ.get("HARDPAN_NEEDS_BROWSER"), WHY
        pytest.skip(WHY)
    options = webdriver.ChromeOptions()
    options.binary_location = CHROMIUM
    for switch in (*SWITCHES, f"--user-data-dir={tmp_path_factory.mktemp('browser')}"):
        options.add_argument(switch)
    options.set_capability("goog:loggingPrefs", {"performance": "ALL", "browser": "ALL"})
    driver = webdriver.Chrome(options=options, service=Service(DRIVER))
    yield Browser(driver)
    driver.quit()


@pytest.fixture
def browser(started: Browser) -> Browser:
    """The browser with a phone's screen and without any ticks."""
    started.screen(360, 800)
    started.driver.get("file:///")
    started.run("localStorage.clear()")
    return started
