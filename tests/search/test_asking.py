"""Alternatives, time limits and stopping, through the public function."""

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

import solver
from benchmarks.rigs import Size, rig
from solver.jam.jam import Jam
from solver.outcome import Impossible, Planned, Progress, Undecided
from solver.plans import Plan
from solver.reading import read_jam
from tests.building import box, desk, dock_and_reef, jam, module, named
from tests.showing import ROOT, SCENARIOS

HARD = 14
"""Parts that may live anywhere, each with an amount of its own: enough to keep the search busy for a while."""


def told(plan: Plan) -> tuple[object, ...]:
    """What makes a plan another plan for a musician: cables, and the engine, side, strip and track of each part."""
    parts = {
        name: (part.engine, part.track, part.outlet, part.pan, tuple((part.strips or {}).items()))
        for name, part in plan.parts.items()
    }
    return tuple(cable.model_dump_json() for cable in plan.cables), tuple(parts.items())


def cost(plan: Plan) -> tuple[int, int, int]:
    assert plan.goals is not None
    return plan.goals.cables, plan.goals.silenced, plan.goals.settings_moved


@pytest.mark.parametrize("name", ["low-tide", "three-rivers", "narrow-channel"])
def test_alternatives_differ_follow_on_and_pass_the_check(name: str) -> None:
    asked = read_jam(str(SCENARIOS / f"{name}.toml"))
    one, more = solver.plan(asked), solver.plan(asked, alternatives=4)
    assert isinstance(one, Planned)
    assert isinstance(more, Planned)
    assert more.best == one.best
    assert len(more.plans) == 5
    assert len({told(plan) for plan in more.plans}) == len(more.plans)
    assert [cost(plan) for plan in more.plans] == sorted(cost(plan) for plan in more.plans)
    assert all(solver.check(asked, plan) == () for plan in more.plans)


def test_alternatives_end_where_nothing_else_is_possible() -> None:
    alone = jam(
        {"reef": box("Reef", out=[named("MAIN", mono="OUT")], engine=[named("1")], track=[named("A", plays="1")])},
        ["bass"],
    )
    outcome = solver.plan(alone, alternatives=3)
    assert isinstance(outcome, Planned)
    assert len(outcome.plans) == 1


def hard_jam() -> Jam:
    """A rig that takes the search far longer than any limit in these tests."""
    sides = [named(f"LINE {n}", mono=f"IN {n}") for n in range(HARD)]
    strips = [named(f"S {n}", from_=f"LINE {n}", offers=["reverb"], track=f"T {n}") for n in range(HARD)]
    tracks = [named(f"T {n}", channel=n + 1) for n in range(HARD)]
    desk = box(
        "Desk",
        out=[named("MAIN", left="L", right="R")],
        in_=sides,
        strip=strips,
        track=tracks,
        midi=[named("OUT", way="out")],
    )
    boxes = {"desk": desk}
    for place in range(6):
        engines = [named(str(n), channel=1 + (n + place) % 5) for n in range(6)]
        ports = [named("IN", way="in"), named("THRU", way="thru", copies="IN")]
        boxes[f"reef{place}"] = box("Reef", out=[named("MAIN", left="L", right="R")], engine=engines, midi=ports)
    parts = [f"part {n}" for n in range(HARD)]
    wishes = [{"treat": [part], "with": {"reverb": 10 + n}} for n, part in enumerate(parts)]
    return jam(boxes, parts, *wishes, {"match": parts[::2]})


def test_no_time_is_not_decided_and_never_impossible() -> None:
    outcome = solver.plan(hard_jam(), time_limit=1e-6)
    assert isinstance(outcome, Undecided)


def test_a_proof_needs_no_time_where_it_is_at_hand() -> None:
    asked = read_jam(str(SCENARIOS / "short-rope.toml"))
    assert isinstance(solver.plan(asked), Impossible)


def test_time_up_gives_the_best_plan_so_far_or_none_and_claims_no_proof() -> None:
    news: list[Progress] = []
    asked = hard_jam()
    outcome = solver.plan(asked, time_limit=4.0, progress=news.append)
    assert isinstance(outcome, Planned | Undecided)
    assert news
    assert all(said.best is None or said.bound is None or said.bound <= said.best for said in news)
    if isinstance(outcome, Planned):
        assert outcome.stopped
        assert outcome.best.status == "found"
        assert not all(outcome.best.proof.values())
        assert solver.check(asked, outcome.best) == ()


STOPPED_PLAN = """
import json, sys
import solver
from solver.outcome import Planned
from tests.search.test_asking import hard_jam
def say(progress):
    print("busy", flush=True)
outcome = solver.plan(hard_jam(), time_limit=300, progress=say)
found = isinstance(outcome, Planned)
print(json.dumps({"kind": type(outcome).__name__, "stopped": outcome.stopped if found else True,
                  "status": outcome.best.status if found else "none"}), flush=True)
"""


@pytest.mark.skipif(os.name == "nt", reason="sends the signal of Ctrl-C to another process")
def test_ctrl_c_ends_the_search_with_what_it_has() -> None:
    env = os.environ | {"PYTHONPATH": str(ROOT)}
    process = subprocess.Popen(
        [sys.executable, "-c", STOPPED_PLAN], stdout=subprocess.PIPE, text=True, env=env, cwd=Path(ROOT)
    )
    assert process.stdout is not None
    assert process.stdout.readline() == "busy\n"
    process.send_signal(signal.SIGINT)
    rest = process.stdout.read().splitlines()
    assert process.wait() == 0
    said = json.loads(rest[-1])
    assert said["stopped"]
    assert said["status"] in ("found", "none")


def test_progress_counts_the_whole_plan_and_not_one_piece_of_it() -> None:
    rig_news: list[Progress] = []
    outcome = solver.plan(rig(Size(8, 8, 16), "plain").jam(), progress=rig_news.append)
    assert isinstance(outcome, Planned)
    assert outcome.best.goals is not None
    last = {said.goal: said for said in rig_news}
    assert last["cables"].best == last["cables"].bound == outcome.best.goals.cables
    assert last["settings_moved"].best == last["settings_moved"].bound == outcome.best.goals.settings_moved
    assert (last["all"].best, last["all"].bound) == (None, None)


def test_an_amount_is_had_in_the_first_box_that_can_give_it() -> None:
    """Engine and strip offer reverb: of two boxes the first in the file, whichever holds the engine."""
    strips = [named("IN 1", from_="LINE/left", offers=["reverb"]), named("IN 2", from_="LINE/right")]
    engine = named("1", offers=["reverb"])
    boxes = {"dock": desk(strip=strips), "reef": module(engine=[engine])}
    wish = {"treat": ["bass"], "with": {"reverb": 30}}
    for order in (("dock", "reef"), ("reef", "dock")):
        table = {name: boxes[name] for name in order}
        outcome = solver.plan(jam(table, {"bass": {"on": "reef/1"}}, wish, leader="dock", listen="dock/MAIN"))
        assert isinstance(outcome, Planned)
        treated = {setting.box for setting in outcome.best.settings if setting.what == "reverb" and setting.value}
        assert treated == {order[0]}


def test_among_equals_the_first_in_the_file_is_taken() -> None:
    """The kick costs nothing on the leader's pad, and nothing on the module's second engine, which the cables reach."""
    plan = solver.plan(dock_and_reef(parts={"kick": {}, "bass": {"on": "reef/1"}}))
    assert isinstance(plan, Planned)
    assert plan.best.parts["kick"].engine == "dock/PAD"
