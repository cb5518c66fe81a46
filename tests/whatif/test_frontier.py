"""The most that can be met with each number of cables is what trying every choice of intents finds."""

from collections.abc import Collection, Sequence
from functools import cache
from itertools import combinations
from pathlib import Path
from random import Random
from typing import NamedTuple

import pytest

import solver
from solver.jam.claims import claims, intent_of
from solver.jam.jam import Jam
from solver.jam.loosened import loosened
from solver.outcome import Impossible, Planned
from solver.plans import Plan
from solver.reading import read_jam
from solver.reasons.edits import PART, Edit, edited
from solver.reasons.trial import Trial
from solver.search.clock import Clock
from solver.whatif.frontier import Frontier, frontier
from tests.building import desk, dock_and_reef, module, named
from tests.building import jam as jam_of
from tests.enumeration.rigs import seeded
from tests.explain.slow import Slow
from tests.explain.test_conflicts import Looks
from tests.showing import SCENARIOS

MANY = (27, 53, 57, 62, 107, 151, 189, 219, 237, 252)
"""Seeds of jams in which some intents cost a cable."""

SEEDS = (
    *(*MANY, 0, 1, 2, 5, 7, 11, 17, 18, 22, 32, 35, 39, 48, 50, 64, 74, 76, 85, 99),
    *(103, 116, 124, 128, 178, 253),
)
"""With these, jams of all kinds: in some all can be met, in some nothing, in some not even the parts can be had."""


class Told(NamedTuple):
    """A point without its plan."""

    cables: int
    met: int
    left_out: tuple[int, ...]


@cache
def _jam(seed: int) -> Jam:
    """A tiny jam with weights."""
    jam, dice = seeded(seed), Random(seed)
    return _weighed(jam, [dice.randint(1, 4) for _ in jam.intents])


def _weighed(jam: Jam, weights: Sequence[int]) -> Jam:
    pairs = zip(jam.intents, weights, strict=True)
    return jam.changed(intents=tuple(intent.model_copy(update={"weight": weight}) for intent, weight in pairs))


def _nothing() -> None:
    """Say nothing."""


@cache
def _found(seed: int) -> Frontier:
    return frontier(_jam(seed), Clock(None), _nothing)


def _told(found: Frontier) -> list[Told]:
    return [Told(point.cables, point.met, point.left_out) for point in found.points]


def _tried(jam: Jam) -> list[Told]:
    """The same by planning every choice of intents in every reading."""
    slow, count = Slow(jam), len(jam.intents)
    choices = []
    for left_out in (some for size in range(count + 1) for some in combinations(range(count), size)):
        kept = [c for c in slow.claims if (intent := intent_of(jam, c)) is None or intent[0] not in left_out]
        outcomes = [solver.plan(read, time_limit=None) for read in slow.readings(frozenset(kept))]
        assert all(isinstance(outcome, Planned | Impossible) for outcome in outcomes)
        cables = [len(outcome.best.cables) for outcome in outcomes if isinstance(outcome, Planned)]
        if cables:
            met = sum(intent.weight for place, intent in enumerate(jam.intents) if place not in left_out)
            choices.append(Told(min(cables), met, left_out))
    best: list[Told] = []
    # Of equal ones the first that is kept longest in file order: its places that are left out come last.
    for choice in sorted(choices, key=lambda c: (c.cables, -c.met, [place in c.left_out for place in range(count)])):
        if not best or choice.met > best[-1].met:
            best.append(choice)
    return best


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_the_points_are_those_of_trying_everything(seed: int) -> None:
    found = _found(seed)
    assert found.done
    assert _told(found) == _tried(_jam(seed))
    assert found.total == sum(intent.weight for intent in _jam(seed).intents)


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_more_cables_meet_more_and_each_plan_is_real(seed: int) -> None:
    jam, found = _jam(seed), _found(seed)
    for less, more in zip(found.points, found.points[1:], strict=False):
        assert less.cables < more.cables and less.met < more.met
    for point in found.points:
        assert point.proved
        assert point.cables == len(point.plan.cables)
        assert point.met == sum(i.weight for place, i in enumerate(jam.intents) if place not in point.left_out)
        assert _fits(jam, point.plan, point.left_out)


def _fits(jam: Jam, plan: Plan, left_out: Collection[int]) -> bool:
    """Whether no rule is broken in some reading of the jam without these intents."""
    kept = [c for c in claims(jam) if (intent := intent_of(jam, c)) is None or intent[0] not in left_out]
    return any(not solver.check(read, plan) for (read,) in Trial(jam, Clock(None)).jams(kept))


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_the_last_point_of_a_jam_that_can_be_had_is_its_plan(seed: int) -> None:
    found, outcome = _found(seed), solver.plan(_jam(seed), time_limit=None)
    if isinstance(outcome, Planned):
        assert found.points[-1].plan == outcome.best
        assert found.points[-1].left_out == ()
    else:
        assert not found.points or found.points[-1].met < found.total


def test_together_the_seeds_are_of_all_kinds() -> None:
    lengths = {len(_found(seed).points) for seed in SEEDS}
    assert lengths == {0, 1, 2, 3}
    tops = [(_found(s).points[-1].met, _found(s).total) for s in SEEDS if _found(s).points and _found(s).total]
    assert any(met == total for met, total in tops)
    assert any(0 < met < total for met, total in tops)
    assert any(met == 0 for met, _ in tops)


@pytest.mark.parametrize("seed", MANY[::2])
def test_the_answer_is_the_same_twice(seed: int) -> None:
    assert frontier(_jam(seed), Clock(600), _nothing) == _found(seed)


@pytest.mark.parametrize("seed", [57, 151])
def test_whenever_time_is_up_nothing_is_said_that_is_not_shown(seed: int) -> None:
    """What is known by then are the last points; only the first of them may lack its proof."""
    whole, looks, seen = _found(seed), 0, set[int]()
    while True:
        found = frontier(_jam(seed), Looks(looks), _nothing)
        if found.done:
            break
        seen.add(len(found.points))
        proved = [point for point in found.points if point.proved]
        assert list(found.points[1:]) == [*whole.points][len(whole.points) - len(found.points) + 1 :]
        assert proved in ([], [*whole.points][len(whole.points) - len(proved) :])
        assert all(_fits(_jam(seed), point.plan, point.left_out) for point in found.points)
        looks += 1 + looks // 4
    assert found == whole
    assert len(seen) > 1


def test_without_time_nothing_is_claimed() -> None:
    assert frontier(_jam(27), Clock(0), _nothing) == Frontier((), 10, done=False)


def test_each_step_is_told() -> None:
    told: list[int] = []
    frontier(_jam(27), Clock(None), lambda: told.append(1))
    assert len(told) > len(_found(27).points)


BY_HAND: dict[str, tuple[list[int], list[Told]]] = {
    # Two amounts of ducking take both sides of barge; without the arp's (3) one audio cable and one lead do. One of
    # bass and pad (2) could go instead: the earlier one is kept.
    "low-tide": ([], [Told(2, 3, (2,)), Told(3, 4, ())]),
    # The same, if the arp matters more: the ducking of bass and pad goes, or even that with layer and clock kept.
    "low-tide, the arp first": ([1, 1, 2, 1], [Told(2, 4, (1,)), Told(3, 5, ())]),
    # The pad's sides (1) take a second audio cable, the bass beside its reverb (3) a third. Without them all is mono:
    # one audio cable, one lead.
    "slow-swell": ([], [Told(2, 1, (0, 2)), Told(3, 2, (2,)), Told(4, 3, ())]),
    # Two amounts of reverb and one cable in the drawer: one of the two, and a lead.
    "short-rope": ([], [Told(2, 1, (1,))]),
    "short-rope, the second first": ([1, 3], [Told(2, 3, (0,))]),
    # Two boxes to hear and two to play: four cables whatever is wished.
    "harbour-lights": ([], [Told(4, 3, ())]),
    # No box leads to the ears: the parts alone cannot be had.
    "impossible/lost-lead": ([], []),
}


@pytest.mark.parametrize("name", BY_HAND)
def test_scenarios(name: str) -> None:
    weights, expected = BY_HAND[name]
    jam = read_jam(SCENARIOS / f"{name.partition(',')[0]}.toml")
    found = frontier(_weighed(jam, weights) if weights else jam, Clock(None), _nothing)
    assert found.done
    assert _told(found) == expected


def test_many_wishes_that_may_hold_or_not_when_left_out() -> None:
    """Five parts that keep both sides take two audio cables and a lead; without that wish they take them too."""
    names = [str(number) for number in range(1, 6)]
    jam = dock_and_reef(
        *({"stereo": [part]} for part in names),
        dock=desk(strip=[named("IN", from_="LINE")], track=[named(name, channel=int(name)) for name in names]),
        reef=module(engine=[named(name, channel=int(name)) for name in names]),
        parts={name: {"on": "reef"} for name in names},
    )
    found = frontier(jam, Clock(None), _nothing)
    assert (_told(found), found.done) == ([Told(3, 5, ())], True)


def test_as_much_with_fewer_cables_is_the_one_that_is_told() -> None:
    """No engine shifts, so the layer is left out; what it ties may share a track all the same.

    On tracks of their own, the arp has to leave the one channel of reef for cove, which takes two cables more.
    """
    strips = [named(side, from_=f"LINE/{side}") for side in ("left", "right")]
    dock = desk(engine=[], strip=strips, track=[named("1"), named("2")])
    reef = module(engine=[named("1", channels=[1]), named("2", channels=[1])])
    cove = module(engine=[named("1", channels=[2])])
    parts = {"bass": {"on": "reef"}, "arp": {}}
    wish = {"layer": ["bass", "arp"], "shift": {"bass": -12}}
    found = frontier(jam_of({"dock": dock, "reef": reef, "cove": cove}, parts, wish), Clock(None), _nothing)
    assert (_told(found), found.done) == ([Told(2, 0, (0,))], True)


def test_nothing_wished_is_one_point() -> None:
    found = frontier(dock_and_reef(parts={"bass": {"on": "reef"}}), Clock(None), _nothing)
    assert (_told(found), found.total, found.done) == ([Told(2, 0, ())], 0, True)


def test_a_weight_survives_a_change_of_the_jam() -> None:
    jam = dock_and_reef({"stereo": ["arp", "bass"], "weight": 7}, {"separate": ["arp", "bass"], "weight": 3})
    less = edited(jam, [Edit(PART, "", "part.arp", ("part", "arp"), {}, None)])
    assert less is not None and [intent.weight for intent in less.intents] == [7, 3]


def test_a_loosened_jam_counts_each_piece_once() -> None:
    jam = dock_and_reef({"treat": ["bass"], "with": {"reverb": 20}, "weight": 5})
    assert [intent.weight for intent in loosened(jam, claims(jam), claims(jam)).intents] == [1]


def test_the_weights_of_a_file_are_read(tmp_path: Path) -> None:
    text = (SCENARIOS / "short-rope.toml").read_text("utf-8").replace("reverb = 60 }", "reverb = 60 }\nweight = 9")
    (tmp_path / "boxes").symlink_to(SCENARIOS / "boxes")
    (tmp_path / "jam.toml").write_text(text, "utf-8")
    found = frontier(read_jam(tmp_path / "jam.toml"), Clock(None), _nothing)
    assert (_told(found), found.total) == ([Told(2, 9, (0,))], 10)
