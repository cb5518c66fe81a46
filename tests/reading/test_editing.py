"""Changes to the data of a jam, and what is left out with a part or a box."""

import shutil
import tomllib
from pathlib import Path
from typing import Any

import pytest

from solver.gear.words import Spot
from solver.jam.editing import Cut, Put, Step, after, without
from solver.reading import read_jam
from solver.reading.rewriting import rewritten

SCENARIOS = sorted(p for folder in ("scenarios", "scenarios/impossible") for p in Path(folder).glob("*.toml"))


def jam(*intents: dict[str, Any]) -> dict[str, Any]:
    """A small jam with some intents."""
    return {
        "leader": "a",
        "boxes": {"a": "a.toml", "b": "b.toml", "c": "c.toml"},
        "part": {"kick": {"on": "a/PAD"}, "bass": {"on": "b", "notes": 2}, "pad": {"on": "b/LOW"}, "free": {}},
        "recall": {"b": "bank 2"},
        "intent": list(intents),
    }


@pytest.mark.parametrize(
    ("data", "steps", "new"),
    [
        ({"a": 1}, [], {"a": 1}),
        ({"a": 1}, [Put(("a",), 2)], {"a": 2}),
        ({"a": 1}, [Put(("b", "c", "d"), 2)], {"a": 1, "b": {"c": {"d": 2}}}),
        ({"a": [1, 2]}, [Put(("a", 1), 3)], {"a": [1, 3]}),
        ({"a": [1, 2]}, [Put(("a", 9), 3)], {"a": [1, 2, 3]}),
        ({}, [Put(("a", 0), {"b": 1})], {"a": [{"b": 1}]}),
        ({"a": 1}, [Put(("b",), (1, (2,)))], {"a": 1, "b": [1, [2]]}),
        ({"a": 1}, [Put(("b",), {}), Put(("b", "c"), 1)], {"a": 1, "b": {"c": 1}}),
        ({"a": 1, "b": 2}, [Cut(("a",))], {"b": 2}),
        ({"a": [1, 2, 3]}, [Cut(("a", 0)), Cut(("a", 2)), Cut(("a", 0))], {"a": [2]}),
        ({"a": [1, 2, 3]}, [Cut(("a", 0)), Put(("a", 1), 5)], {"a": [5, 3]}),
        ({"a": {"b": 1}}, [Cut(("a",)), Cut(("a", "b"))], {}),
    ],
    ids=repr,
)
def test_the_data_after_some_steps(data: dict[str, Any], steps: list[Step], new: dict[str, Any]) -> None:
    before = repr(data), repr(steps)
    assert after(data, steps) == new
    assert (repr(data), repr(steps)) == before


@pytest.mark.parametrize("step", [Cut(("b",)), Cut(("a", "b")), Cut(("l", 1)), Put(("l", 3, "x"), 1)], ids=repr)
def test_a_step_about_nothing_is_an_error(step: Step) -> None:
    with pytest.raises(LookupError):
        after({"a": {}, "l": [1]}, [step])


WITHOUT_BASS: list[tuple[dict[str, Any], dict[str, Any] | None]] = [
    ({"layer": ["bass", "pad"], "shift": {"bass": -12, "pad": 1}}, {"layer": ["pad"], "shift": {"pad": 1}}),
    ({"layer": ["bass"], "name": "low"}, None),
    ({"separate": ["kick", "bass"], "at": "b"}, {"separate": ["kick"], "at": "b"}),
    (
        {"treat": ["pad"], "with": {"ducking": 60, "reverb": 1}, "key": "bass"},
        {"treat": ["pad"], "with": {"reverb": 1}},
    ),
    ({"treat": ["pad"], "with": {"ducking": 60}, "key": "bass"}, None),
    ({"treat": ["pad"], "with": {"reverb": 1}, "key": "bass"}, {"treat": ["pad"], "with": {"reverb": 1}}),
    ({"treat": ["bass"], "with": {"reverb": 1}}, None),
    ({"keep": {"part": "bass", "channel": 3}}, None),
    ({"keep": {"part": "pad", "channel": 3}}, {"keep": {"part": "pad", "channel": 3}}),
    ({"clock": ["bass"]}, {"clock": ["bass"]}),
    ({"avoid": {"jacks": ["bass/L"]}}, {"avoid": {"jacks": ["bass/L"]}}),
]

WITHOUT_B: list[tuple[dict[str, Any], dict[str, Any] | None]] = [
    ({"clock": ["b", "c"]}, {"clock": ["c"]}),
    ({"clock": ["b"]}, None),
    ({"separate": ["kick", "bass"], "at": "b"}, {"separate": ["kick", "bass"]}),
    ({"treat": ["bass"], "with": {"warmth": 5}, "at": "c"}, {"treat": ["bass"], "with": {"warmth": 5}, "at": "c"}),
    ({"play": ["kick"], "from": "b/TRACK 1"}, None),
    ({"play": ["kick"], "from": "b"}, None),
    ({"play": ["kick"], "from": "c"}, {"play": ["kick"], "from": "c"}),
    ({"keep": {"cable": ["b/L", "a/IN"]}}, None),
    ({"keep": {"part": "bass", "engine": "b/LOW"}}, None),
    ({"keep": {"part": "bass", "pan": "left"}}, {"keep": {"part": "bass", "pan": "left"}}),
    ({"avoid": {"jacks": ["b/L", "a/R"], "channels": [1]}}, {"avoid": {"jacks": ["a/R"], "channels": [1]}}),
    ({"avoid": {"jacks": ["b/L"], "ports": ["b/IN"]}}, None),
    ({"stereo": ["b"]}, {"stereo": ["b"]}),
]


@pytest.mark.parametrize(("intent", "left"), WITHOUT_BASS, ids=repr)
def test_without_a_part(intent: dict[str, Any], left: dict[str, Any] | None) -> None:
    other = {"match": ["free"]}
    data = jam(other, intent, other)
    new = after(data, without(data, parts={"bass"}))
    assert new["intent"] == [other, *([] if left is None else [left]), other]
    assert new["part"] == {name: part for name, part in data["part"].items() if name != "bass"}
    assert (new["boxes"], new["recall"]) == (data["boxes"], data["recall"])


@pytest.mark.parametrize(("intent", "left"), WITHOUT_B, ids=repr)
def test_without_a_box(intent: dict[str, Any], left: dict[str, Any] | None) -> None:
    other = {"match": ["free"]}
    data = jam(other, intent, other)
    new = after(data, without(data, boxes={"b"}))
    assert new["intent"] == [other, *([] if left is None else [left]), other]
    assert new["part"] == {"kick": {"on": "a/PAD"}, "bass": {"notes": 2}, "pad": {}, "free": {}}
    assert new["boxes"] == {"a": "a.toml", "c": "c.toml"}
    assert new["recall"] == {}


def test_without_both_and_without_nothing() -> None:
    data = jam({"treat": ["bass", "kick"], "with": {"warmth": 5}, "at": "b"})
    new = after(data, without(data, parts={"bass"}, boxes={"b"}))
    assert new["intent"] == [{"treat": ["kick"], "with": {"warmth": 5}}]
    assert list(new["part"]) == ["kick", "pad", "free"]
    assert not list(without(data))
    assert not list(without(data, parts={"b"}, boxes={"bass"}))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return Path(shutil.copytree("scenarios", tmp_path_factory.mktemp("editing") / "scenarios"))


@pytest.mark.parametrize("file", SCENARIOS, ids=lambda file: file.stem)
def test_a_scenario_without_a_part_or_box_is_a_jam(file: Path, folder: Path) -> None:
    text = file.read_text(encoding="utf-8")
    data = tomllib.loads(text)
    needed = {data["leader"], Spot.parse(data["listen"]).box}
    fewer: list[tuple[set[str], set[str]]] = [({part}, set()) for part in data.get("part", {})]
    fewer += [(set(), {box}) for box in data["boxes"] if box not in needed]
    fewer.append((set(data.get("part", {})), set(data["boxes"]) - needed))
    smaller = folder / file.relative_to("scenarios").with_name("smaller.toml")
    for parts, boxes in fewer:
        smaller.write_text(rewritten(text, list(without(data, parts, boxes))))
        left = read_jam(smaller)
        assert left.parts.keys() == data.get("part", {}).keys() - parts
        assert left.boxes.keys() == data["boxes"].keys() - boxes
