"""Saved plans: whose they are, and whether they still hold."""

import json
from pathlib import Path

import pytest

from solver.book.entries import book_of
from solver.book.saved import Saved, state_of
from tests.book.shelves import edit, entry, save, shelf, states


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with a saved plan of Low Tide."""
    shelf(tmp_path)
    save(tmp_path / "low-tide.toml", tmp_path / "low-tide.plan.json")
    return tmp_path


def test_a_plan_that_holds(folder: Path) -> None:
    assert states(folder) == {"Low Tide": [("low-tide.plan.json", "well", ())]}
    assert entry(book_of(folder), "Low Tide").cables == 3
    assert book_of(folder).stale == ()


def test_a_plan_that_breaks_a_rule_of_today_s_file(folder: Path) -> None:
    edit(folder / "low-tide.toml", "ducking = 60", "ducking = 50")
    ((_, state, reasons),) = states(folder)["Low Tide"]
    assert state == "stale"
    assert reasons[0].startswith("A9 A part gets each amount you want")
    assert "ducking 60" in reasons[0]
    assert entry(book_of(folder), "Low Tide").cables == 3


def test_a_plan_that_names_what_is_there_no_more(folder: Path) -> None:
    edit(folder / "low-tide.toml", "[part.pad]", "[part.mat]")
    text = (folder / "low-tide.toml").read_text("utf-8").replace('"pad"', '"mat"')
    (folder / "low-tide.toml").write_text(text, "utf-8")
    ((_, state, reasons),) = states(folder)["Low Tide"]
    assert state == "stale"
    assert reasons[0].startswith(f"{folder / 'low-tide.plan.json'}:")
    assert 'parts.pad: found "pad"' in reasons[0]


def test_a_plan_of_a_changed_box(folder: Path) -> None:
    edit(folder / "boxes" / "barge.toml", 'left  = "L/MONO"', 'left  = "LEFT"')
    ((_, state, reasons),) = states(folder)["Low Tide"]
    assert (state, 'found "barge/L/MONO"' in reasons[0]) == ("stale", True)


def test_a_slot_may_be_named_after_the_plan_was_saved_but_not_be_another(folder: Path) -> None:
    with (folder / "low-tide.toml").open("a", encoding="utf-8") as stream:
        stream.write('[recall]\ntiller = "7"\n')
    assert states(folder)["Low Tide"] == [("low-tide.plan.json", "well", ())]
    save(folder / "low-tide.toml", folder / "low-tide.plan.json")
    edit(folder / "low-tide.toml", 'tiller = "7"', 'tiller = "8"')
    assert states(folder)["Low Tide"] == [
        ("low-tide.plan.json", "stale", ("The plan recalls 7 on tiller, the jam 8.",))
    ]


def test_a_plan_belongs_to_the_file_beside_it_when_no_title_fits(folder: Path) -> None:
    edit(folder / "low-tide.toml", 'title  = "Low Tide"', 'title  = "High Tide"')
    reason = "The plan is written for Low Tide, this jam is High Tide."
    assert states(folder) == {"High Tide": [("low-tide.plan.json", "stale", (reason,))]}
    (folder / "low-tide.plan.json").rename(folder / "spring.json")
    assert states(folder) == {}
    assert [plan.file.name for plan in book_of(folder).strays] == ["spring.json"]


def test_of_jams_with_one_title_the_one_beside_it_has_the_plan_else_the_one_with_its_parts(folder: Path) -> None:
    text = (folder / "low-tide.toml").read_text("utf-8")
    (folder / "a.toml").write_text(f"{text}\n[part.more]\non = 'barge'\n", "utf-8")

    def owners() -> dict[str, list[str]]:
        return {entry.file.name: [plan.state for plan in entry.plans] for entry in book_of(folder).jams if entry.plans}

    assert owners() == {"low-tide.toml": ["well"]}
    (folder / "low-tide.plan.json").rename(folder / "x.json")
    assert owners() == {"low-tide.toml": ["well"]}
    (folder / "x.json").rename(folder / "a.json")
    assert owners() == {"a.toml": ["stale"]}


def test_one_of_several_plans_that_holds_is_enough(folder: Path) -> None:
    data = json.loads((folder / "low-tide.plan.json").read_text("utf-8"))
    data["cables"] = data["cables"][1:]
    (folder / "a.json").write_text(json.dumps(data), "utf-8")
    low_tide = entry(book_of(folder), "Low Tide")
    assert [plan.state for plan in low_tide.plans] == ["stale", "well"]
    assert (state_of(low_tide.plans), low_tide.cables) == ("well", 3)
    assert [plan.file.name for plan in book_of(folder).stale] == ["a.json"]
    assert state_of(()) == "none"
    assert state_of([Saved(Path("x"), 1, ("why",))]) == "stale"


def test_the_plan_of_a_set(tmp_path: Path) -> None:
    shelf(tmp_path)
    save(tmp_path / "sets" / "first-watch.toml", tmp_path / "sets" / "w.json")
    assert states(tmp_path) == {"First Watch": [("w.json", "well", ())]}
    second = entry(book_of(tmp_path), "Second Bell")
    assert (second.plans, second.cables, state_of(second.set_plans)) == ((), 8, "well")
    edit(tmp_path / "sets" / "bells" / "second.toml", "bank A, 2", "bank B, 2")
    assert states(tmp_path)["First Watch"] == [
        ("w.json", "stale", ("bells/second.toml: The plan recalls bank A, 2 on capstan, the jam bank B, 2.",))
    ]
    edit(tmp_path / "sets" / "first-watch.toml", '"bells/first.toml", ', "")
    ((_, state, reasons),) = states(tmp_path)["First Watch"]
    assert (state, 'found "bells/first.toml"' in reasons[0]) == ("stale", True)
