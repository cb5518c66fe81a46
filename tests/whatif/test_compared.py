"""A jam before and after a change: what is compared with what, how each ending is told, and what is free."""

import json
from pathlib import Path

import pytest

import solver
from solver.flow.settings import goals_of
from solver.jam.editing import Changes, Put, changed
from solver.jam.jam import Jam
from solver.outcome import Impossible, Planned, Undecided
from solver.plans import Plan
from solver.reading import read_box, read_jam
from solver.sheet.edits import Source
from solver.sheet.whatif import whatif_text
from solver.sheet.whatif_data import whatif_data
from solver.whatif.compared import WhatIf
from solver.whatif.room import room
from tests.showing import SCENARIOS
from tests.whatif.pairs import SEEDS, pair

NEW = 10**6


def _jam(name: str = "low-tide") -> Jam:
    return read_jam(SCENARIOS / f"{name}.toml")


def _with(jam: Jam, *intents: dict[str, object]) -> Jam:
    return changed(jam, Changes(adds=tuple(Put(("intent", NEW), intent) for intent in intents)))


def _text(found: WhatIf, *said: str) -> str:
    return " ".join(whatif_text(found, said, Source("x.toml", lambda _: None), 80).split())


def _data(found: WhatIf) -> dict[str, object]:
    data: dict[str, object] = json.loads(json.dumps(whatif_data(found, [], Source("x.toml", lambda _: None))))
    return data


def _coracle() -> Changes:
    box = read_box(SCENARIOS / "boxes" / "coracle.toml")
    return Changes(adds=(Put(("boxes", "coracle"), box), Put(("part", "low"), {"on": "coracle"})))


def test_what_was_possible_is_no_more() -> None:
    jam = _jam("third-lantern")
    found = solver.what_if(jam, changed(jam, _coracle()))
    assert isinstance(found.had, Planned) and isinstance(found.has, Impossible) and found.why is not None
    (clash,) = found.why.clashes
    assert "part.low.on" in clash.conflict.statements and clash.conflict.minimal
    (repair,) = found.why.repaired.repairs
    assert repair.cheapest and solver.check(repair.jam, repair.planned.best) == ()
    text, data = _text(found), _data(found)
    assert "Impossible, proved (it was possible before)." in text and "The cheapest way out:" in text
    assert data["status"] == "impossible" and data["plan"] is None and data["conflicts"] and data["repairs"]


def test_what_was_impossible_is_possible_now() -> None:
    jam = _jam("short-rope")
    found = solver.what_if(jam, changed(jam, Changes(sets=(Put(("cables", "6.35 mono"), 2),))))
    assert isinstance(found.had, Impossible) and isinstance(found.has, Planned)
    assert found.difference is not None and found.difference.plugged == found.has.best.cables
    text = _text(found)
    assert "It was impossible before." in text and "cables - 3" in text


def test_what_is_impossible_before_and_after() -> None:
    jam = _jam("short-rope")
    found = solver.what_if(jam, _with(jam, {"avoid": {"channels": [16]}}))
    assert "Impossible, proved (as before)." in _text(found)


def test_without_time_nothing_is_decided() -> None:
    jam = _jam()
    found = solver.what_if(jam, _with(jam, {"avoid": {"channels": [3]}}), time_limit=1e-9)
    assert isinstance(found.has, Undecided) and found.difference is None and found.why is None
    assert _text(found).count("Not decided") == 1 and "mpossible" not in _text(found)
    assert _data(found)["status"] == "undecided"


def test_a_plan_in_use_is_compared_with_as_it_is() -> None:
    """The plan in use has its cables crossed: it is kept, though the jam's own plan has them straight."""
    jam = _jam()
    outcome = solver.plan(jam)
    assert isinstance(outcome, Planned)
    crossed = _crossed(outcome.best)
    found = solver.what_if(jam, jam, against=crossed)
    assert isinstance(found.has, Planned) and found.difference is not None
    assert found.difference.stay == 3 and not found.difference.moved
    assert {cable.to for cable in found.has.best.cables} == {cable.to for cable in crossed.cables}
    fresh = solver.what_if(jam, jam, against=crossed, fresh=True)
    assert isinstance(fresh.has, Planned) and fresh.has.best == outcome.best
    assert fresh.difference is not None and fresh.difference.plugs == 2 and fresh.fresh is None


def _crossed(plan: Plan) -> Plan:
    """Low Tide's plan with its two audio cables in the other strips."""
    one, other, lead = plan.cables
    return plan.model_copy(
        update={"cables": (one.model_copy(update={"to": other.to}), other.model_copy(update={"to": one.to}), lead)}
    )


def test_staying_near_has_its_price() -> None:
    found = next(
        one
        for one in (solver.what_if(of.before, of.after, against=of.used, time_limit=None) for of in map(pair, SEEDS))
        if one.fresh is not None
    )
    assert isinstance(found.has, Planned) and found.fresh is not None and found.difference is not None
    near, free = goals_of(found.has.best), goals_of(found.fresh.plan)
    assert near.cables == free.cables
    assert (free.silenced, free.settings_moved) < (near.silenced, near.settings_moved)
    assert found.fresh.difference.plugs > found.difference.plugs
    assert solver.check(found.after, found.fresh.plan) == ()
    plugs = found.fresh.difference.plugs
    assert f"has its price: with {plugs} plug" in _text(found) and "--fresh" in _text(found)
    fresh = _data(found)["fresh"]
    assert fresh == {"goals": free.model_dump(), "plugs_moved": plugs}


def test_nothing_changes_where_nothing_matters() -> None:
    jam = _jam()
    found = solver.what_if(jam, _with(jam, {"clock": ["barge"]}))
    assert found.difference is not None and found.difference.none and found.fresh is None
    text = _text(found, "one more wish: the clock of barge")
    assert "The plan stays as it is: 3 cables, 5 settings to move." in text and "volume" not in text


def test_cables_to_move_come_with_the_usual_caution() -> None:
    jam = _jam()
    found = solver.what_if(jam, changed(jam, Changes(drops=(("intent", 2),))))
    assert "Turn the volume all the way down before you plug or pull a cable." in _text(found)


def test_a_part_that_changes_its_engine_says_how_to_keep_it() -> None:
    """Avoiding bass's engine's channel is no reason to lose it; a keep of pad on that engine is."""
    jam = _jam()
    found = solver.what_if(jam, _with(jam, {"keep": {"part": "arp", "engine": "barge/1"}}))
    text = _text(found)
    assert found.difference is not None and "another engine" in text
    told = text.partition("--add-intent '")[2].partition("'")[0]
    assert told == 'keep = { part = "bass", engine = "barge/1" }'


def test_what_is_free_is_counted_by_hand() -> None:
    """Low Tide: both jacks of barge and both strips are used; 1, 2 and 10 carry notes. Ears are no free side."""
    jam = _jam()
    outcome = solver.plan(jam)
    assert isinstance(outcome, Planned)
    has = room(jam, outcome.best, goals_of(outcome.best))
    assert (has.treated, has.sides, has.strips) == (3, (), ())
    assert has.channels == tuple(channel for channel in range(1, 17) if channel not in (1, 2, 10))
    shunned = _with(jam, {"avoid": {"channels": [16]}})
    assert room(shunned, outcome.best, goals_of(outcome.best)).channels[-1] == 15


def test_headphones_that_mirror_the_mains_are_no_free_side() -> None:
    jam = _jam("narrow-channel")
    outcome = solver.plan(jam)
    assert isinstance(outcome, Planned)
    mirrors = {spot for spot, outlet in jam.rig.outlets.items() if outlet.mirrors is not None}
    free = {jam.rig.jacks[jack].connection for jack, _ in room(jam, outcome.best, goals_of(outcome.best)).sides}
    assert mirrors and free.isdisjoint(mirrors | {jam.ears}) and free


@pytest.mark.parametrize("file", sorted((SCENARIOS / "impossible").glob("*.toml"))[:4], ids=lambda file: file.stem)
def test_a_repair_ends_what_was_impossible(file: Path) -> None:
    """What explaining calls a way out is a change that a what-if finds possible."""
    jam = read_jam(file)
    found = solver.what_if(jam, jam)
    assert found.why is not None
    for repair in found.why.repaired.repairs:
        after = solver.what_if(jam, repair.jam)
        assert isinstance(after.has, Planned)
