"""Names, clashes and what is looked for."""

import json
from pathlib import Path

import pytest

from solver.book.entries import book_of
from solver.book.sought import Sought
from tests.book.shelves import edit, entry, save, shelf


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return shelf(tmp_path)


def test_no_two_jams_of_a_book_have_one_name(folder: Path) -> None:
    text = (folder / "low-tide.toml").read_text("utf-8")
    (folder / "m.toml").write_text(text, "utf-8")
    first, second = (one for one in book_of(folder).jams if one.jam.title == "Low Tide")
    assert (first.file.name, second.file.name) == ("low-tide.toml", "m.toml")
    assert first.names == {"tiller": "LOW TIDE", "barge": "LOW TIDE"}
    assert second.names == {"tiller": "LOW TIDE 2", "barge": "LOW TIDE 2"}


def test_names_of_plans_that_hold_are_in_use(folder: Path) -> None:
    data = save(folder / "low-tide.toml", folder / "low-tide.json")
    data["recall"] = {"tiller": {"name": "LOWTIDE"}, "barge": {"name": "AUTUMN"}}
    (folder / "low-tide.json").write_text(json.dumps(data), "utf-8")
    assert entry(book_of(folder), "Low Tide").names == {"tiller": "LOWTIDE", "barge": "AUTUMN"}
    edit(folder / "low-tide.toml", "ducking = 60", "ducking = 50")
    assert entry(book_of(folder), "Low Tide").names == {"tiller": "LOW TIDE", "barge": "LOW TIDE"}


def test_names_of_a_set_s_plan_are_in_use(folder: Path) -> None:
    data = save(folder / "sets" / "first-watch.toml", folder / "sets" / "w.json")
    data["jams"]["bells/second.toml"]["recall"]["barge"]["name"] = "TWO"
    (folder / "sets" / "w.json").write_text(json.dumps(data), "utf-8")
    assert entry(book_of(folder), "Second Bell").names == {"capstan": "SECOND BELL", "barge": "TWO"}


def test_a_slot_that_two_jams_claim_is_told_with_both_lines(folder: Path) -> None:
    (folder / "sets" / "first-watch.toml").unlink()
    second = folder / "sets" / "bells" / "second.toml"
    edit(second, "bank A, 2", " Bank a,   1")
    (clash,) = book_of(folder).clashes
    assert clash.box == "capstan"
    assert [(claim.title, claim.slot) for claim in clash.claims] == [
        ("First Bell", "bank A, 1"),
        ("Second Bell", " Bank a,   1"),
    ]
    for claim in clash.claims:
        assert claim.file.read_text("utf-8").splitlines()[claim.line - 1] == f'capstan = "{claim.slot}"'


def test_empty_slots_and_slots_of_other_boxes_do_not_clash(folder: Path) -> None:
    edit(folder / "sets" / "bells" / "first.toml", '"project, 1"', '"bank A, 2"')
    edit(folder / "sets" / "bells" / "second.toml", '"project, 2"', '" "')
    edit(folder / "sets" / "bells" / "third.toml", '"project, 3"', '""')
    assert book_of(folder).clashes == ()


@pytest.mark.parametrize(
    ("sought", "found"),
    [
        (Sought(), ["Low Tide", "First Bell", "Second Bell", "Third Bell"]),
        (Sought(box="TILL"), ["Low Tide"]),
        (Sought(box="limpet"), ["First Bell", "Third Bell"]),
        (Sought(slot="a,  2"), ["Second Bell"]),
        (Sought(slot="2"), ["Second Bell"]),
        (Sought(box="barge", slot="bank"), []),
        (Sought(box="barge", slot="PROJECT, 3"), ["Third Bell"]),
        (Sought(text="low"), ["Low Tide", "Third Bell"]),
        (Sought(text="first watch"), ["First Bell", "Second Bell", "Third Bell"]),
        (Sought(text="FIRST BELL"), ["First Bell"]),
        (Sought(text="second.toml"), ["Second Bell"]),
        (Sought(box="barge", text="reed"), ["Second Bell"]),
        (Sought(text="nothing of the kind"), []),
    ],
)
def test_what_is_looked_for(sought: Sought, found: list[str], folder: Path) -> None:
    book = sought.found_in(book_of(folder))
    assert [one.jam.title for one in book.jams] == found
    assert [one.on_file.title for one in book.sets] == (["First Watch"] if found not in ([], ["Low Tide"]) else [])


def test_clashes_are_shown_with_any_of_their_jams(folder: Path) -> None:
    edit(folder / "sets" / "bells" / "second.toml", "bank A, 2", "bank A, 1")
    book = book_of(folder)
    assert len(Sought(text="reed").found_in(book).clashes) == 1
    assert Sought(box="tiller").found_in(book).clashes == ()
