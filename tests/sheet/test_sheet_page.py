"""What the page of a sheet holds, read without a browser; ``tests/browser`` shows it in one."""

import re
from collections.abc import Iterator
from html.parser import HTMLParser

import pytest

import solver
from solver.flow.completed import completed
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Plan
from solver.reading import read_jam
from solver.sheet.cells import NO_BREAK, clean
from solver.sheet.formats import FORMATS
from solver.sheet.recall import recall_rows
from solver.sheet.sections import SAFETY
from solver.sheet.step import plain
from solver.sheet.steps import groups
from tests.sheet.hostile import hostile
from tests.sheet.low_tide import BARGE, TILLER, low_tide, plan_of
from tests.showing import SCENARIOS


class Read(HTMLParser):
    """The texts of the elements of some kinds, in order."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: dict[str, list[str]] = {"label": [], "th": [], "td": [], "li": [], "h3": []}
        self.attributes: list[tuple[str, str]] = []
        self._open: list[str] = []
        self._unseen = 0
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin a text; what stands there for the ear alone is left out."""
        self.attributes += [(tag, name) for name, _ in attrs]
        if tag in self.found:
            self._open.append(tag)
            self.found[tag].append("")
        self._unseen += self._unseen > 0 or ("class", "unseen") in attrs

    def handle_endtag(self, tag: str) -> None:
        """End a text."""
        self._unseen -= self._unseen > 0
        if self._open[-1:] == [tag]:
            self._open.pop()

    def handle_data(self, data: str) -> None:
        """Add to every text that is open."""
        for tag in () if self._unseen else self._open:
            self.found[tag][-1] += data.replace(NO_BREAK, " ")


def page(jam: Jam, plan: Plan) -> str:
    made = FORMATS[".html"].made(jam, plan)
    assert isinstance(made, str)
    return made


def steps(jam: Jam, plan: Plan) -> Iterator[str]:
    for group in groups(jam, completed(jam, plan)):
        for step in group.steps:
            yield f"{plain(step.does)} {plain(step.note)}".strip()


@pytest.mark.parametrize("file", sorted(SCENARIOS.glob("*.toml")), ids=lambda file: file.stem)
def test_every_step_of_every_scenario_is_on_the_page_once(file: object) -> None:
    jam = read_jam(str(file))
    outcome = solver.plan(jam, time_limit=None)
    for plan in outcome.plans if isinstance(outcome, Planned) else ():
        read = Read(page(jam, plan))
        assert read.found["label"] == [clean(step) for step in steps(jam, plan)]
        ends = [
            f"{one.source} → {one.to}" for one in plan.cables if isinstance(one.source, str) and isinstance(one.to, str)
        ]
        shown = read.found["label"]
        assert all(sum(label.startswith(f"{end} ") for label in shown) == 1 for end in ends)
        assert set(plan.parts) <= set(read.found["th"])
        assert all(clean(caution) in read.found["li"] for caution in (*plan.cautions, *SAFETY))


def test_the_page_needs_nothing_but_itself() -> None:
    text = page(*hostile())
    assert {name for _, name in Read(text).attributes} & {
        "src",
        "srcset",
        "action",
        "data",
        "onload",
        "onclick",
    } == set()
    assert re.findall(r"@import|url\(|<link[^>]+href=\"(?!data:)", text) == []
    assert "default-src 'none'" in text[:1000]


def test_the_same_plan_gives_the_same_page_and_another_one_another_key() -> None:
    key = re.compile('data-plan="([0-9a-f]{24})"')
    text = page(low_tide(), plan_of())
    assert text == page(low_tide(), plan_of())
    others = [page(low_tide(tempo=119), plan_of()), page(low_tide(), plan_of(cables=[]))]
    assert len({key.findall(one)[0] for one in (text, *others)}) == 3


def test_names_are_as_long_as_a_screen_shows_them() -> None:
    jam = low_tide(boxes={"tiller": {**TILLER, "name_length": 4}, "barge": BARGE}, title="Low Tide")
    assert recall_rows(jam, completed(jam, plan_of())) == [("tiller", "LWTD", "bank B, slot 3"), ("barge", "-", "-")]
    named = plan_of(recall={"tiller": {"slot": "bank B, slot 3", "name": "LTD2"}})
    assert recall_rows(jam, completed(jam, named))[0] == ("tiller", "LTD2", "bank B, slot 3")
