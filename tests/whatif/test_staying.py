"""A plan in use that is as good as any stays as it is; what it costs to leave it is counted as hands count it."""

from collections.abc import Iterator, Mapping

import pytest

import solver
from solver.jam.editing import Changes, Put, changed
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Plan
from solver.reading import read_jam
from solver.rules import RULES
from solver.search.choices import Choices
from solver.search.clock import Clock
from solver.search.ground import Ground
from solver.search.near import moved_plugs
from solver.search.pieces import settle, split
from solver.search.solve import Runs
from tests.building import box, cable, jam, named, plan
from tests.showing import SCENARIOS
from tests.whatif.pairs import SEEDS, best_of, pair
from tests.whatif.test_near import plugs_moved

NEW = 10**6


def _keeps(of: Jam) -> Iterator[Mapping[str, object]]:
    for part in of.parts:
        yield from ({"part": part, "engine": str(engine)} for engine in of.rig.engines)
        yield from ({"part": part, "track": str(track)} for track in of.rig.tracks)
        yield from ({"part": part, "strip": str(strip)} for strip in of.rig.strips)
        yield from ({"part": part, "channel": channel} for channel in (1, 2, 3, 8))
        yield from ({"part": part, "pan": pan} for pan in ("left", "centre", "right"))


@pytest.mark.parametrize(
    ("name", "least"), [("low-tide", 15), ("harbour-lights", 10), ("narrow-channel", 12), ("three-rivers", 10)]
)
def test_a_plan_as_good_as_the_best_is_left_as_it_is(name: str, least: int) -> None:
    """Other engines, tracks, channels, strips and pans that cost no more are no reason to move anything."""
    of = read_jam(SCENARIOS / f"{name}.toml")
    best, others = best_of(of), 0
    assert best is not None
    for keep in _keeps(of):
        used = best_of(changed(of, Changes(adds=(Put(("intent", NEW), {"keep": keep}),))))
        if used is not None and used.goals == best.goals and used.parts != best.parts:
            others += 1
            found = solver.what_if(of, of, against=used)
            assert found.difference is not None and found.difference.none, keep
    assert others >= least


@pytest.mark.parametrize("seed", [seed for seed in SEEDS if seed < 300])
def test_moved_plugs_are_counted_as_hands_count_them(seed: int) -> None:
    """Of any wiring, the best or not: what the search counts is what trying every way to move cables comes to."""
    of = pair(seed)
    new = best_of(of.after)
    assert new is not None
    for wiring in (new, of.used, of.best):
        keeps = tuple(
            Put(("intent", NEW), {"keep": {"cable": [one.source, one.to]}})
            for one in wiring.cables
            if isinstance(one.source, str) and isinstance(one.to, str)
        )
        kept = changed(of.after, Changes(adds=keeps))
        planned = best_of(kept)
        if planned is not None and len(planned.cables) == len(keeps):
            assert _counted(kept, of.used, len(keeps)) == plugs_moved(of.used.cables, planned.cables)


def _counted(kept: Jam, used: Plan, most: int) -> int:
    """How many plugs of the plan in use move, as the search counts them, where no cable is plugged but those kept."""
    choices = Choices(Ground([kept]))
    for rule in RULES:
        rule.constrain(choices)
    choices.model.at_most(most, _cables(choices))
    counted = moved_plugs(choices, used)
    settle(choices.model)
    total = sum(choices.model.value(lit) == 1 for lit in counted)
    for piece in split(choices.model, counted):
        runs = Runs(piece, Clock(None))
        runs.aim([(lit, 1) for lit in counted if abs(lit) in piece.choices])
        while not runs.met:
            runs.turn("plain", None, lambda best, bound: None)
        total += runs.cost or 0
    return total


def _cables(choices: Choices) -> list[int]:
    return [given for _, given in choices.wires.every()]


def _mixer(*parts: tuple[str, str]) -> Jam:
    """A mixer with four strips that are all alike, and two one-voice modules."""
    strips = [named(f"IN {n}", from_=f"LINE {n}") for n in range(1, 5)]
    desk = box(
        "Desk",
        out=[named("MAIN", left="L", right="R")],
        in_=[named(f"LINE {n}", mono=f"LINE {n}") for n in range(1, 5)],
        strip=strips,
        track=[named("1", channel=1)],
        midi=[named("OUT 1", way="out"), named("OUT 2", way="out")],
    )
    voice = box("Voice", out=[named("OUT", mono="OUT")], engine=[named("V")], midi=[named("IN", way="in")])
    return jam({"desk": desk, "one": voice, "two": voice}, {name: {"on": on} for name, on in parts})


def test_a_strip_that_is_freed_takes_the_cable_that_stays_in_it() -> None:
    """The bass moves to the other module: both cables stay in the mixer and move at their far ends."""
    before, after = _mixer(("bass", "one")), _mixer(("bass", "two"))
    lives = best_of(before)
    assert lives is not None
    used = plan(
        {name: part.model_dump() for name, part in lives.parts.items()},
        [cable("6.35 mono", "one/OUT", "desk/LINE 3"), cable("din", "desk/OUT 2", "one/IN")],
    )
    found = solver.what_if(before, after, against=used)
    assert isinstance(found.has, Planned) and found.difference is not None
    assert [move.new.to for move in found.difference.moved] == ["desk/LINE 3", "two/IN"]
    assert found.difference.plugs == 2 and found.has.best.parts["bass"].strips == {"desk": ("IN 3",)}


def test_a_new_cable_comes_from_one_old_one() -> None:
    """It begins where one old cable began and ends where another ended: one of them moves a plug, the other goes."""
    cables = [("one/OUT", "desk/LINE 2"), ("desk/OUT 1", "one/IN")]
    keeps = tuple(Put(("intent", NEW), {"keep": {"cable": ends}}) for ends in cables)
    kept = changed(_mixer(("bass", "one")), Changes(adds=keeps))
    leads = [cable("din", "desk/OUT 1", "one/IN"), cable("din", "desk/OUT 2", "two/IN")]
    used = plan({}, [cable("6.35 mono", f"{box}/OUT", f"desk/LINE {n}") for n, box in ((1, "one"), (2, "two"))] + leads)
    new = best_of(kept)
    assert new is not None and len(new.cables) == 2
    assert _counted(kept, used, 2) == plugs_moved(used.cables, new.cables) == 1 + 2 + 2
