"""What the page of a set says: keys, projects to save and to recall, and what hands move."""

import re
from typing import Any

import solver
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import PlannedSet
from solver.sheet.formats import SET_FORMATS
from tests.building import desk, jam, module, named


def _text(*jams: Jam) -> list[str]:
    """The page's text, a line each piece."""
    of = JamSet("Set", {f"{n}.toml": one for n, one in enumerate(jams, start=1)})
    outcome = solver.plan(of, time_limit=None)
    assert isinstance(outcome, PlannedSet)
    page = SET_FORMATS[".html"](of, outcome.best)
    body = re.sub(r"<svg.*?</svg>|<script.*?</script>|<style.*?</style>", "", page, flags=re.DOTALL)
    sections = body.split("<section ")
    return [re.sub(r"\s+", " ", re.sub(r"<[^>]+>", "", section)) for section in sections]


def _jam(amount: int, recall: dict[str, str], **tables: Any) -> Jam:
    wish = {"treat": ["bass"], "with": {"reverb": amount}}
    return jam({"dock": desk(**tables), "reef": module()}, {"bass": {"on": "reef/1"}}, wish, recall=recall)


def test_nothing_is_saved_over_the_project_of_another_jam() -> None:
    sections = _text(_jam(20, {"dock": "1"}), _jam(40, {"reef": "2"}))
    first, second = (next(text for text in sections if f"{number}. Test" in text) for number in (1, 2))
    assert "Save the project on dock" in first
    assert re.search(r"reverb 20\s% → ?to(\s|&nbsp;)40\s%", second)
    assert "Save the project on dock" not in second


def test_where_no_jam_names_a_slot_the_page_says_on_which_box_to_recall() -> None:
    sections = _text(_jam(20, {}), _jam(40, {}))
    changes = next(text for text in sections if "Between the jams" in text and "nothing to move by hand" in text)
    assert "Recall this jam's project on dock" in changes.replace("&#39;", "'")


def test_what_the_box_stores_is_told_once_with_its_key() -> None:
    strips = [
        named(f"IN {n}", from_=f"LINE/{side}", offers=["ducking", "reverb"], key=["PAD"], stored="box")
        for n, side in ((1, "left"), (2, "right"))
    ]
    wish = {"treat": ["bass"], "with": {"ducking": 50}, "key": "kick"}
    boxes = {"dock": desk(strip=strips), "reef": module()}
    parts = {"kick": {"on": "dock/PAD"}, "bass": {"on": "reef/1"}}
    sections = _text(*(jam(boxes, parts, wish) for _ in range(2)))
    wiring = next(text for text in sections if "Wiring, once for all jams" in text)
    assert "ducking 50 %, key kick" in wiring.replace("\xa0", " ").replace("&nbsp;", " ")
    jams = [text for text in sections if re.match(r"[^>]*>\d\. Test", text) or "1. Test" in text[:80]]
    assert all("strip IN 1: ducking" not in text for text in jams)
