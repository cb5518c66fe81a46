"""Single changes side by side: each row says what planning its jam says, and what is known is not searched again."""

import json
from functools import cache
from pathlib import Path

import pytest

import solver
from solver.asking import ask
from solver.flow.settings import goals_of
from solver.jam.editing import Changes, Put, changed
from solver.jam.jam import Jam
from solver.outcome import Impossible, Outcome, Planned
from solver.plans import Goals, Plan
from solver.reading import line_finder, read_box, read_jam
from solver.search.clock import Clock
from solver.sheet.edits import Source
from solver.sheet.sweep import sweep_data, sweep_text
from solver.whatif import sweep as module
from solver.whatif.sweep import Row, Sweep, Then, sweep
from tests.enumeration.rigs import seeded
from tests.showing import SCENARIOS

FILES = [*sorted(SCENARIOS.glob("*.toml")), *sorted((SCENARIOS / "impossible").glob("*.toml"))[:6]]
SEEDS = range(0, 120, 6)


@cache
def _swept(file: Path) -> tuple[Jam, Sweep]:
    jam = read_jam(file)
    return jam, sweep(jam, Clock(None))


def _then(jam: Jam, row: Row) -> object:
    boxes = {name: row.change.after.boxes.get(name, box) for name, box in jam.boxes.items()}
    outcome = solver.plan(jam, time_limit=None)
    used = outcome.best if isinstance(outcome, Planned) else None
    after = solver.plan(row.change.after, time_limit=None)
    if not isinstance(after, Planned):
        return "impossible" if isinstance(after, Impossible) else "undecided"
    before = jam if used is None else jam.changed(boxes=boxes)
    found = solver.what_if(before, row.change.after, against=used, time_limit=None)
    assert isinstance(found.has, Planned) and found.difference is not None
    assert len(found.has.best.cables) == len(after.best.cables)
    return Then(goals_of(found.has.best), found.difference.plugs, found.difference.turned, found.difference.none)


def _best(jam: Jam) -> Plan:
    outcome = solver.plan(jam, time_limit=None)
    assert isinstance(outcome, Planned)
    return outcome.best


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_each_row_is_what_asking_for_it_says(file: Path) -> None:
    jam, found = _swept(file)
    assert found.done and found.rows
    for row in found.rows:
        assert row.then == _then(jam, row), row.change.says


@pytest.mark.parametrize("seed", SEEDS)
def test_each_row_of_a_tiny_jam_is_what_asking_for_it_says(seed: int) -> None:
    jam = seeded(seed)
    for row in sweep(jam, Clock(None)).rows:
        assert row.then == _then(jam, row), row.change.says


def _rows(file: str) -> dict[str, Row]:
    return {row.change.says: row for row in _swept(SCENARIOS / file)[1].rows}


def test_what_may_break_in_low_tide() -> None:
    """Both audio cables carry an amount each, the lead is the only way for notes, and barge alone has synths."""
    rows = _rows("low-tide.toml")
    lost = {says: row.then for says, row in rows.items() if row.change.about == "lose"}
    assert lost == {
        "lose a cable of 6.35 mono: 1 of 2 left": "impossible",
        "lose a cable of din: the only one": "impossible",
        "lose the box barge; bass, pad and arp may live elsewhere": "impossible",
    }


def test_what_one_more_gains_in_low_tide() -> None:
    """A mono outlet takes the arp, which stays at centre then, and leaves the left jack, which sums, to the others."""
    rows = _rows("low-tide.toml")
    outlet = rows["one more mono outlet on barge"]
    assert goals_of(_best(outlet.change.after)) == Goals(cables=3, settings_moved=3)
    assert outlet.then == Then(Goals(cables=3, settings_moved=5))  # not worth a plug, with the plan in use
    assert rows["one more strip on tiller, like IN 2"].then == Then(Goals(cables=3, settings_moved=5))


def test_which_purchase_unlocks_what() -> None:
    """Two amounts of reverb need two mono cables and the drawer has one."""
    jam, found = _swept(SCENARIOS / "short-rope.toml")
    unlocks = [row.change.says for row in found.rows if isinstance(row.then, Then) and row.change.about == "more"]
    assert isinstance(found.base, Impossible) and unlocks == ["one more cable of 6.35 mono"]
    text = sweep_text(jam, found, Source("x.toml", lambda _: None), 80)
    assert "one more cable of 6.35 mono            possible: 3 cables" in text
    assert text.count("still impossible") == sum(row.then == "impossible" for row in found.rows)


def _watched(monkeypatch: pytest.MonkeyPatch) -> list[Jam]:
    """Every jam that is planned from now on, as it comes."""
    asked: list[Jam] = []

    def watched(
        jam: Jam, alternatives: int, time_limit: float | None, progress: None, near: Plan | None = None
    ) -> Outcome:
        asked.append(jam)
        return ask(jam, alternatives, time_limit, progress, near)

    monkeypatch.setattr(module, "ask", watched)
    return asked


def test_a_spare_and_an_idle_box_are_not_planned_again(monkeypatch: pytest.MonkeyPatch) -> None:
    jam = read_jam(SCENARIOS / "low-tide.toml")
    splitter = read_box(SCENARIOS / "boxes" / "cleft.toml")
    drawer = {"6.35 mono": 2, "din": 3}
    jam = changed(jam, Changes(sets=(Put(("cables",), drawer),), adds=(Put(("boxes", "idle"), splitter),)))
    asked = _watched(monkeypatch)
    rows = {row.change.says: row.then for row in sweep(jam, Clock(None)).rows}
    now = Then(Goals(cables=3, settings_moved=5))
    assert rows["lose a cable of din: the drawer has 2 spares"] == now == rows["lose the box idle"]
    assert rows["lose a cable of 6.35 mono: 1 of 2 left"] == "impossible"
    assert len(asked) == 1 + len(rows) - 2
    assert not any("idle" not in one.boxes for one in asked)


def test_wishes_that_repeat_each_other_are_planned_once(monkeypatch: pytest.MonkeyPatch) -> None:
    jam = read_jam(SCENARIOS / "low-tide.toml")
    twice = changed(jam, Changes(adds=(Put(("intent", 10**6), {"clock": ["barge"]}),)))
    asked = _watched(monkeypatch)
    rows = [row for row in sweep(twice, Clock(None)).rows if row.change.about == "without"]
    assert [row.then for row in rows][-2:] == [Then(Goals(cables=3, settings_moved=5))] * 2
    assert sum(len(one.intents) == 4 for one in asked) == 4


def test_without_time_nothing_is_claimed() -> None:
    found = sweep(read_jam(SCENARIOS / "low-tide.toml"), Clock(0))
    assert not found.done and not found.rows
    text = sweep_text(read_jam(SCENARIOS / "low-tide.toml"), found, Source("x.toml", lambda _: None), 80)
    assert "impossible" not in text and "too short" in text


def test_it_tells_how_far_it_is() -> None:
    told: list[tuple[int, int]] = []
    found = sweep(read_jam(SCENARIOS / "low-tide.toml"), Clock(None), lambda tried, of: told.append((tried, of)))
    assert told == [(number, len(found.rows)) for number in range(len(found.rows))]


def test_text_and_data_say_the_same() -> None:
    jam, found = _swept(SCENARIOS / "low-tide.toml")
    data = json.loads(json.dumps(sweep_data(jam, found)))
    assert [(one["about"], one["says"], one["statement"] or "") for one in data["changes"]] == [
        (row.change.about, row.change.says, row.change.statement) for row in found.rows
    ]
    text = " ".join(sweep_text(jam, found, _source(), 100).split())
    assert all(one["says"] in text for one in data["changes"])
    assert text.endswith("--drop intent.2 shows what to move then.")


def _source() -> Source:
    file = SCENARIOS / "low-tide.toml"
    return Source(str(file), line_finder(file))
