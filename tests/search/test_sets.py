"""Sets: one wiring for all jams, one value of what boxes store, few moves by hand; each jam is still right alone."""

from collections.abc import Mapping
from typing import Any

import pytest

import solver
from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import Impossible, Planned, PlannedSet
from solver.reading import read_jam, read_set
from solver.set_plans import SetPlan
from tests.building import box, desk, jam, module, named
from tests.showing import SCENARIOS

SETS = SCENARIOS / "sets"


def _planned(*jams: Jam) -> SetPlan:
    outcome = solver.plan(JamSet("Set", {f"{n}.toml": one for n, one in enumerate(jams, start=1)}), time_limit=None)
    assert isinstance(outcome, PlannedSet)
    assert outcome.best.status == "proved"
    return outcome.best


@pytest.mark.parametrize("name", ["low-tide", "narrow-channel", "three-rivers", "last-lamp", "foghorn", "tide-tables"])
def test_a_set_of_one_jam_is_that_jams_plan(name: str) -> None:
    one = read_jam(SCENARIOS / f"{name}.toml")
    alone = solver.plan(one, time_limit=None)
    assert isinstance(alone, Planned)
    together = _planned(one)
    assert list(together.jams.values()) == [alone.best]
    assert together.cables == alone.best.cables
    assert together.goals is not None
    assert alone.best.goals is not None
    assert together.goals.model_dump(exclude={"by_hand"}) == alone.best.goals.model_dump()


def test_jams_that_are_alike_need_no_more_than_one_of_them() -> None:
    one = read_jam(SCENARIOS / "low-tide.toml").changed(recall={"tiller": "1", "barge": "1"})
    alone, twice = solver.plan(one, time_limit=None), _planned(one, one)
    assert isinstance(alone, Planned)
    assert twice.cables == alone.best.cables
    assert [len(between.changes) for between in twice.between] == [0]


def test_each_jam_of_a_set_passes_the_follower_on_its_own() -> None:
    read = read_set(SETS / "first-watch.toml")
    outcome = solver.plan(read, time_limit=None)
    assert isinstance(outcome, PlannedSet)
    for file, one in read.jams.items():
        assert solver.check(one, outcome.best.jams[file]) == ()
    assert solver.check(read, outcome.best) == ()


def _voices(stored: Any, count: int = 2, **keys: Any) -> Box:
    """A module whose engines all stand on channel 1."""
    engines = [named(str(n), channel=1, stored=stored, **keys) for n in range(1, count + 1)]
    return module(engine=engines, out=[named("MAIN", left="L", right="R")])


RECALL = {"dock": "slot", "reef": "slot"}


def _on(reef: Box, parts: Mapping[str, Any], *wishes: dict[str, Any], recall: Mapping[str, str] = RECALL) -> Jam:
    return jam({"dock": desk(), "reef": reef}, parts, *wishes, recall=dict(recall))


def test_what_the_box_stores_has_one_value_for_all_jams() -> None:
    kept = [{"keep": {"part": "bass", "channel": channel}} for channel in (2, 3)]
    parts = {"bass": {"on": "reef/1"}}
    own = _planned(*(_on(_voices({"channel": "project"}), parts, wish) for wish in kept))
    assert [own.jams[file].engines["reef/1"].channel for file in own.jams] == [2, 3]
    both = JamSet("Set", {str(n): _on(_voices({"channel": "box"}), parts, wish) for n, wish in enumerate(kept)})
    assert isinstance(solver.plan(both, time_limit=None), Impossible)


def test_a_stored_channel_that_moves_counts_once() -> None:
    parts = {"bass": {"on": "reef/1"}}
    jams = [_on(_voices({"channel": "box"}, 1), parts, {"keep": {"part": "bass", "channel": 2}}) for _ in range(3)]
    plan = _planned(*jams)
    assert plan.goals is not None
    # The engine once; the track stands on 2 already, another one than the first.
    assert plan.goals.settings_moved == 1
    assert [(s.where, s.what, s.value) for s in plan.settings] == [("1", "channel", 2)]


def test_a_stored_pan_is_kept_apart_from_one_that_the_project_recalls() -> None:
    parts = {"bass": {"on": "reef/1"}}
    wishes = [{"keep": {"part": "bass", "pan": pan}} for pan in ("left", "right")]
    assert _planned(*(_on(_voices("project"), parts, wish) for wish in wishes)).goals
    boxes = JamSet("Set", {str(n): _on(_voices({"pan": "box"}), parts, wish) for n, wish in enumerate(wishes)})
    assert isinstance(solver.plan(boxes, time_limit=None), Impossible)


def test_parts_that_sound_alike_may_leave_by_two_sides_where_the_box_stores_the_pans() -> None:
    reef = _voices({"pan": "box"})
    apart = {"separate": ["bass", "arp"]}
    left = {"keep": {"part": "bass", "pan": "left"}}
    plan = _planned(
        _on(reef, {"bass": {"on": "reef"}, "arp": {"on": "reef"}}, apart), _on(reef, {"bass": {"on": "reef/1"}}, left)
    )
    first = plan.jams["1.toml"].parts
    assert {first["bass"].pan, first["arp"].pan} == {"left", "right"}


def test_what_no_project_recalls_is_moved_by_hand_as_seldom_as_can_be() -> None:
    wishes = [{"treat": ["bass"], "with": {"reverb": amount}} for amount in (20, 40, 20)]
    jams = [_on(_voices("project"), {"bass": {"on": "reef/1"}}, wish, recall={"reef": "slot"}) for wish in wishes]
    plan = _planned(jams[0].changed(recall=RECALL), *jams[1:])
    assert plan.goals is not None
    assert plan.goals.by_hand == 2
    assert [[(c.what, c.was, c.value, c.by) for c in between.changes] for between in plan.between] == [
        [("reverb", 20, 40, "hand")],
        [("reverb", 40, 20, "hand")],
    ]
    for recall in (RECALL, {}):
        recalled = _planned(*(one.changed(recall=recall) for one in jams))
        assert recalled.goals is not None
        assert recalled.goals.by_hand == 0
        assert [[c.by for c in between.changes] for between in recalled.between] == [["project"], ["project"]]


def test_a_jam_that_does_not_need_a_setting_leaves_it_where_it_is() -> None:
    """The second jam has no part on the strip, so its reverb stays for the third."""
    wish = {"treat": ["bass"], "with": {"reverb": 20}}
    reef = _voices("project")
    quiet = jam({"dock": desk(), "reef": reef}, {"kick": {"on": "dock/PAD"}})
    loud = jam({"dock": desk(), "reef": reef}, {"bass": {"on": "reef/1"}}, wish)
    plan = _planned(loud.changed(recall=RECALL), quiet, loud)
    assert plan.goals is not None
    assert plan.goals.by_hand == 0


def test_no_part_lives_on_a_box_that_only_other_jams_use() -> None:
    reef = _voices("project")
    small = jam({"dock": desk()}, {"kick": {}}, recall={"dock": "slot"})
    large = _on(reef, {"bass": {"on": "reef"}})
    plan = _planned(large, small)
    assert plan.jams["2.toml"].parts["kick"].engine.startswith("dock/")
    assert set(plan.jams["2.toml"].engines) == set(plan.jams["1.toml"].engines)


def test_a_level_that_the_box_stores_may_be_at_zero_for_another_jam() -> None:
    """An engine on channels 1 and 2 alone cannot get out of the way of notes on both of them in the first jam."""
    reef = box(
        "Reef",
        out=[named("MAIN", left="L", right="R")],
        engine=[named("1"), named("2"), named("3", channels=[1, 2], stored={"level": "box", "channel": "box"})],
        midi=[named("MIDI IN", way="in")],
    )
    struck = [{"keep": {"part": part, "channel": channel}} for part, channel in (("bass", 1), ("arp", 2))]
    parts = {"bass": {"on": "reef/1"}, "arp": {"on": "reef/2"}}
    plan = _planned(_on(reef, parts, *struck), _on(reef, {"kick": {"on": "dock/PAD"}}))
    assert [one.engines["reef/3"].level for one in plan.jams.values()] == ["zero", "zero"]
    assert plan.goals is not None
    assert plan.goals.silenced == 1


def test_the_drawer_of_each_jam_holds_the_cables_of_the_set() -> None:
    reef = _voices("project")
    poor = _on(reef, {"bass": {"on": "reef"}}).changed(cables={"6.35 mono": 1, "din": 1})
    rich = _on(reef, {"bass": {"on": "reef"}, "arp": {"on": "reef"}}, {"separate": ["bass", "arp"]})
    assert isinstance(solver.plan(JamSet("Set", {"1": poor, "2": rich})), Impossible)


def test_sets_that_do_not_fit_their_plans_are_refused() -> None:
    read = read_set(SETS / "first-watch.toml")
    one = next(iter(read.files.values()))
    outcome = solver.plan(one)
    assert isinstance(outcome, Planned)
    with pytest.raises(TypeError, match="a set goes with the plan of a set"):
        solver.check(read, outcome.best)  # type: ignore[call-overload]
