"""A saved plan brings the jam that it is for."""

import copy
import json
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from solver.documents import json_text, plan_document, set_document
from solver.reading import BadInput, Problem, read_jam, read_plan, read_saved, read_saved_set, read_set
from solver.set_plans import SetPlan
from tests.fuzz.said import FOREIGN
from tests.reading.plans import PLAN
from tests.reading.table import lay
from tests.sheet.low_tide import low_tide, plan_of
from tests.showing import SCENARIOS

VALUES: list[Any] = [None, 3, -1, 17, True, 1e300, "", "x", "all", "barge/1", "\ud800", [], [1], ["x"], [{}], {}]
SETS = sorted((SCENARIOS / "sets").glob("*.toml"))
JAMS = sorted(file for file in SCENARIOS.rglob("*.toml") if {"boxes", "changes"}.isdisjoint(file.parts))
JAMS = [file for file in JAMS if file not in SETS]


def document() -> dict[str, Any]:
    """A good plan with its jam, as plain data."""
    return plan_document(low_tide(), plan_of(), [plan_of()])


def refused(folder: Path, data: Any) -> list[str]:
    """What is said of a plan file with this data."""
    (folder / "plan.json").write_text(json.dumps(data, indent=2), encoding="utf-8")
    with pytest.raises(BadInput) as error:
        read_saved(folder / "plan.json")
    return [str(problem).replace(f"{folder}/", "") for problem in error.value.problems]


def test_it_comes_back_with_its_jam_without_any_other_file(tmp_path: Path) -> None:
    (tmp_path / "plan.json").write_text(json_text(document()), encoding="utf-8")
    assert read_saved(tmp_path / "plan.json") == (low_tide(), plan_of())


@pytest.mark.parametrize("file", JAMS, ids=lambda file: file.stem)
def test_every_jam_is_carried_whole(file: Path, tmp_path: Path) -> None:
    jam = read_jam(file)
    none = plan_of(cables=[], parts={}, strips={}, settings=[], engines={})
    (tmp_path / "plan.json").write_text(json_text(plan_document(jam, none)), encoding="utf-8")
    carried = read_saved(tmp_path / "plan.json").jam
    assert carried == jam
    assert list(carried.boxes) == list(jam.boxes)
    assert list(carried.parts) == list(jam.parts)


def test_what_stands_at_its_default_is_left_out_and_the_keys_have_their_order() -> None:
    data = document()
    assert list(data)[-2:] == ["alternatives", "jam"]
    assert list(data["jam"]) == [
        *("title", "tempo", "leader", "listen", "boxes", "cables", "part", "intent", "recall"),
    ]
    assert data["jam"]["boxes"]["barge"]["engine"][3] == {"name": "4", "sound": "synth", "channel": 4}


def test_the_jam_of_a_checked_file_is_not_looked_at(tmp_path: Path) -> None:
    file = tmp_path / "plan.json"
    file.write_text(json.dumps({**json.loads(PLAN), "jam": "torn"}), encoding="utf-8")
    assert "bass" in read_plan(file, read_jam(lay(tmp_path))).parts


def test_a_plan_without_a_jam_says_what_would_do(tmp_path: Path) -> None:
    (said,) = refused(tmp_path, plan_of().to_json())
    assert said.startswith("plan.json:1: the plan carries no jam")
    assert said.endswith("name its jam file with --jam, or export the jam file itself [F08]")


def test_only_so_many_wrong_things_are_told(tmp_path: Path) -> None:
    data = document()
    data["jam"]["boxes"] = {f"b{n}": {"voices": "x"} for n in range(300)}
    told = refused(tmp_path, data)
    assert (told[0], len(told)) == ("plan.json: more wrong things; the first 500 are listed [F10]", 501)
    data["jam"]["boxes"] = {f"b{n}": {} for n in range(1001)}
    (said,) = refused(tmp_path, data)
    assert said.endswith(": jam.boxes: found an object of 1001 boxes; allowed: at most 1000 [V05]")


def test_a_set_carries_a_hundred_jams_on_boxes_that_it_names(tmp_path: Path) -> None:
    jam = document()["jam"]
    of = {"title": "S", "boxes": jam["boxes"], "jams": {}}

    def said(jams: dict[str, Any]) -> str:
        file = tmp_path / "plan.json"
        file.write_text(json.dumps({"title": "S", "cables": [], "jams": {}, "set": {**of, "jams": jams}}), "utf-8")
        with pytest.raises(BadInput) as error:
            read_saved_set(file)
        return str(error.value.problems[0])

    many = {f"{n}.toml": {**jam, "boxes": list(jam["boxes"])} for n in range(101)}
    assert said(many).endswith("allowed: 1 to 100 jams [V05]")
    assert "set.jams: found " in said({})
    for boxes, code in ((["tiller", "nobody"], "N01"), ([["tiller"]], "N01"), ([], "V03"), ("tiller", "V03")):
        assert said({"a.toml": {**jam, "boxes": boxes}}).endswith(f"a list of boxes that the set carries [{code}]")


def test_what_is_wrong_in_the_jam_is_told_with_its_whole_key(tmp_path: Path) -> None:
    data = document()
    data["jam"]["leader"] = "tilla"
    (said,) = refused(tmp_path, data)
    assert said.endswith(
        ': jam.leader: found "tilla"; allowed: a box of this jam: "tiller", "barge"; did you mean "tiller"? [N01]'
    )
    line = int(said.split(":")[1])
    assert '"leader": "tilla"' in (tmp_path / "plan.json").read_text("utf-8").splitlines()[line - 1]


def test_a_wrong_box_is_told_and_nothing_that_follows_from_it(tmp_path: Path) -> None:
    data = document()
    data["jam"]["boxes"]["tiller"]["out"] = [3]
    (said,) = refused(tmp_path, data)
    assert said.endswith(": jam.boxes.tiller.out.1: found 3; allowed: an object [V03]")
    data["jam"]["boxes"] = ["tiller"]
    (said,) = refused(tmp_path, data)
    assert said.endswith(': jam.boxes: found ["tiller"]; allowed: an object of names and boxes [V03]')


def places(data: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Every key path of some data."""
    yield path
    items = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in items:
        yield from places(value, (*path, key))


@settings(deadline=None, max_examples=150)
@given(st.sampled_from(list(places(document()["jam"]))), st.sampled_from(VALUES))
def test_whatever_is_carried_is_read_or_told_in_plain_words(path: tuple[Any, ...], value: Any) -> None:
    data = copy.deepcopy(document())
    here: Any = data
    for step in ("jam", *path)[:-1]:
        here = here[step]
    here[("jam", *path)[-1]] = value
    problems: tuple[Problem, ...] = ()
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "plan.json"
        file.write_text(json.dumps(data), encoding="utf-8")
        try:
            read_saved(file)
        except BadInput as error:
            problems = error.problems
    assert not any(FOREIGN.search(str(problem)) for problem in problems)
    assert all(problem.line for problem in problems)


@pytest.mark.parametrize("file", SETS, ids=lambda file: file.stem)
def test_every_set_is_carried_whole(file: Path, tmp_path: Path) -> None:
    of = read_set(file)
    none = plan_of(cables=[], parts={}, strips={}, settings=[], engines={})
    plan = SetPlan(title=of.title, cables=(), jams=dict.fromkeys(of.files, none))
    (tmp_path / "plan.json").write_text(json_text(set_document(of, plan)), encoding="utf-8")
    carried = read_saved_set(tmp_path / "plan.json")
    assert carried.of == of
    assert carried.plan == plan
