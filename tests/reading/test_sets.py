"""Set files: what is wrong in one is said with file, line and key, and jams must agree about boxes and slots."""

from pathlib import Path

import pytest

from solver.jam.sets import JamSet
from solver.reading import BadInput, read_jam_or_set, read_set
from tests.showing import SCENARIOS

BELLS = SCENARIOS / "sets" / "bells"


def _written(folder: Path, text: str, **jams: str) -> Path:
    """A set file in a folder, with jams that are First Bell with something replaced: "old -> new"."""
    first = (BELLS / "first.toml").read_text("utf-8").replace("../../boxes", str(SCENARIOS / "boxes"))
    for name, change in jams.items():
        old, _, new = change.partition(" -> ")
        assert old in first
        (folder / f"{name}.toml").write_text(first.replace(old, new), "utf-8")
    file = folder / "set.toml"
    file.write_text(text, "utf-8")
    return file


def _problems(file: Path) -> list[str]:
    with pytest.raises(BadInput) as caught:
        read_set(file)
    return [str(problem).replace(f"{file.parent}/", "") for problem in caught.value.problems]


SLOTS = '= "bank A, 1"\nbarge = "project, 1" -> = "bank B, 9"\nbarge = "project, 9"'
BOTH = 'title = "Evening"\njams = [\n    "one.toml",\n    "two.toml",\n]\n'


def test_a_set_has_its_jams_in_playing_order_and_all_boxes_on_one_table() -> None:
    read = read_jam_or_set(SCENARIOS / "sets" / "first-watch.toml")
    assert isinstance(read, JamSet)
    assert [jam.title for jam in read.jams.values()] == ["First Bell", "Second Bell", "Third Bell"]
    assert {tuple(jam.boxes) for jam in read.jams.values()} == {("capstan", "barge", "limpet", "curragh", "wherry")}


def test_a_jam_that_is_not_there(tmp_path: Path) -> None:
    file = _written(tmp_path, 'title = "Evening"\njams = [\n    "one.toml",\n    "onee.toml",\n]\n', one=SLOTS)
    assert _problems(file) == [
        'set.toml:4: jams.2: found "onee.toml" (no such file); allowed: a jam file, relative to this file; '
        'did you mean "one.toml"? [F01]'
    ]


def test_a_jam_twice(tmp_path: Path) -> None:
    file = _written(tmp_path, 'title = "Evening"\njams = ["one.toml", "one.toml"]\n', one=SLOTS)
    assert _problems(file) == ['set.toml:2: jams.2: found "one.toml" again; allowed: each jam once, see line 2 [N04]']


def test_no_jams_and_wrong_keys(tmp_path: Path) -> None:
    file = _written(tmp_path, "title = 3\njams = []\nsong = 1\n")
    assert _problems(file) == [
        "set.toml:1: title: found 3; allowed: a name in quotes, 1 to 200 characters [V03]",
        "set.toml:2: jams: found []; allowed: a list of 1 to 100 jam files [V05]",
        "set.toml:3: song: found unknown key song; allowed: the keys title, jams [V01]",
    ]


def test_a_slot_that_two_jams_claim_is_named_with_both_lines(tmp_path: Path) -> None:
    file = _written(
        tmp_path, BOTH, one='capstan = "bank A, 1" -> capstan = "bank B, 9"', two='"bank A, 1" -> "bank A,  1"'
    )
    line = next(
        n for n, text in enumerate((tmp_path / "two.toml").read_text("utf-8").splitlines(), 1) if "project" in text
    )
    assert _problems(file) == [
        f'two.toml:{line}: recall.barge: found "project, 1"; allowed: a slot of its own; '
        f"one.toml:{line} has it already [N07]"
    ]


def test_a_slot_is_the_same_however_it_is_spaced_and_cased(tmp_path: Path) -> None:
    change = 'barge = "project, 1" -> barge = "Project,   1"'
    found = _problems(_written(tmp_path, BOTH, one='"bank A, 1" -> "bank B, 1"', two=change))
    assert len(found) == 1
    assert 'found "Project,   1"; allowed: a slot of its own' in found[0]


def test_one_name_for_two_boxes_is_named_with_both_lines(tmp_path: Path) -> None:
    other = SCENARIOS / "boxes" / "coracle.toml"
    file = _written(tmp_path, BOTH, one='"bank A, 1" -> "bank B, 1"', two=f"{SCENARIOS}/boxes/curragh.toml -> {other}")
    (tmp_path / "one.toml").write_text(
        (tmp_path / "one.toml").read_text("utf-8").replace("project, 1", "project, 7"), "utf-8"
    )
    assert _problems(file) == [
        "two.toml:11: boxes.curragh: found another box of that name; "
        "allowed: in a set, a name stands for one box; see one.toml:11 [N06]"
    ]


def test_what_is_wrong_in_any_jam_is_said_with_its_own_file(tmp_path: Path) -> None:
    file = _written(tmp_path, BOTH, one='tempo  = 92 -> tempo  = "fast"', two='leader = "capstan" -> leader = "capstn"')
    found = _problems(file)
    assert len(found) == 2
    assert found[0].startswith("one.toml:3: tempo: found ")
    assert found[1].startswith('two.toml:4: leader: found "capstn"')


def test_a_jam_is_no_set() -> None:
    with pytest.raises(BadInput, match="this is no set"):
        read_set(BELLS / "first.toml")
