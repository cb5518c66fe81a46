"""The page of wishes and cables needs nothing but itself, and no name in it becomes markup."""

import xml.etree.ElementTree as Xml
from html.parser import HTMLParser

import pytest

from solver.jam.jam import Jam
from solver.reading import read_jam
from solver.search.clock import Clock
from solver.sheet.edits import Source
from solver.sheet.frontier import frontier_table
from solver.sheet.page import frontier_page
from solver.whatif.frontier import Frontier, frontier
from tests.showing import SCENARIOS

SOURCE = Source("x.toml", lambda _: None)
WILD = '<script>alert("&\'")</script> 😀 مرحبا'


class _Read(HTMLParser):
    """The tags of a page, what they refer to, and its text."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.references: list[str] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.references += [value or "" for key, value in attrs if key in ("src", "href") or key.startswith("on")]

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def _read(page: str) -> _Read:
    read = _Read()
    read.feed(page)
    read.close()
    return read


@pytest.fixture(scope="module")
def swell() -> tuple[Jam, Frontier]:
    jam = read_jam(SCENARIOS / "slow-swell.toml")
    return jam, frontier(jam, Clock(None), lambda: None)


def test_it_needs_nothing_but_itself(swell: tuple[Jam, Frontier]) -> None:
    page = frontier_page(*swell, SOURCE)
    read = _read(page)
    assert page.startswith("<!doctype html>\n") and read.references == []
    assert not {"script", "link", "img", "iframe"} & set(read.tags) and "url(" not in page and "@import" not in page


def test_it_shows_the_drawing_and_the_table(swell: tuple[Jam, Frontier]) -> None:
    read = _read(frontier_page(*swell, SOURCE))
    headers, rows = frontier_table(*swell, SOURCE)
    cells = [text.strip() for text in read.text]
    assert read.tags.count("svg") == 1 and read.tags.count("th") == len(headers)
    assert read.tags.count("td") == sum(map(len, rows))
    assert all(cell in cells for row in rows for cell in row)


def test_names_stay_names(swell: tuple[Jam, Frontier]) -> None:
    jam, found = swell
    intents = tuple(intent.model_copy(update={"name": WILD}) for intent in jam.intents)
    page = frontier_page(jam.changed(title=WILD, intents=intents), found, SOURCE)
    read = _read(page)
    assert "script" not in read.tags and WILD in "".join(read.text)
    drawing = page[page.index("<svg") : page.index("</svg>") + len("</svg>")]
    assert WILD in (Xml.fromstring(drawing)[0].text or "")
