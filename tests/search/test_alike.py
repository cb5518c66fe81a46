"""What is merged for the search comes out under its own name again, in file order, and what matters stays apart."""

import pytest

import solver
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.outcome import Impossible, Planned
from solver.plans import Plan
from solver.search.alike import Shelf, nothing_tied, table
from tests.building import Table, box, jam, named

LINES = 4


def studio(*intents: Table, parts: int = 2, strips: dict[int, Table] | None = None, **keys: object) -> Jam:
    """A desk with four mono strips and as many tracks, and a reef with four engines and two sides."""
    lines = range(1, LINES + 1)
    special = strips or {}
    desk = box(
        "Desk",
        out=[named("MAIN", left="L", right="R")],
        in_=[named(f"LINE {n}", mono=f"IN {n}") for n in lines],
        strip=[
            named(f"S {n}", from_=f"LINE {n}", offers=["reverb"], track=f"T {n}", **special.get(n, {})) for n in lines
        ],
        track=[named(f"T {n}", channel=n) for n in lines],
        midi=[named("OUT", way="out")],
    )
    reef = box(
        "Reef",
        out=[named("MAIN", left="L", right="R")],
        engine=[named(str(n), channel=1 if n < 4 else 9) for n in range(1, 5)],
        midi=[named("IN", way="in")],
    )
    named_parts = {f"p{n}": {"on": "reef"} for n in range(1, parts + 1)}
    return jam({"desk": desk, "reef": reef}, named_parts, *intents, **keys)


def apart(*amounts: int) -> list[Table]:
    return [{"treat": [f"p{n}"], "with": {"reverb": amount}} for n, amount in enumerate(amounts, start=1)]


def planned(asked: Jam) -> Plan:
    outcome = solver.plan(asked)
    assert isinstance(outcome, Planned)
    return outcome.best


def shelves(asked: Jam) -> tuple[Shelf, ...]:
    return table([asked], nothing_tied).shelves


def test_alike_engines_are_one_with_room_for_several() -> None:
    merged = table([studio()], nothing_tied)
    assert merged.stacks[Spot("reef", "1")] == (Spot("reef", "1"), Spot("reef", "2"), Spot("reef", "3"))
    assert merged.stacks[Spot("reef", "4")] == (Spot("reef", "4"),)


def test_a_stack_is_filled_in_file_order() -> None:
    plan = planned(studio(parts=3))
    assert [plan.parts[f"p{n}"].engine for n in (1, 2, 3)] == ["reef/1", "reef/2", "reef/3"]


def test_a_stack_holds_no_more_than_its_engines() -> None:
    assert isinstance(solver.plan(studio(parts=5)), Impossible)
    assert len({part.engine for part in planned(studio(parts=4)).parts.values()}) == 4


def test_alike_strips_are_taken_in_file_order_of_what_feeds_them() -> None:
    plan = planned(studio(*apart(10, 20)))
    assert [(cable.source, cable.to) for cable in plan.cables] == [
        ("reef/L", "desk/IN 1"),
        ("reef/R", "desk/IN 2"),
        ("desk/OUT", "reef/IN"),
    ]
    assert list(plan.strips) == ["desk/S 1", "desk/S 2"]


def test_no_more_alike_strips_are_used_than_there_are() -> None:
    outcome = solver.plan(studio(*apart(10, 20, 30), parts=3))
    assert isinstance(outcome, Impossible)


@pytest.mark.parametrize(
    ("intent", "left"),
    [
        ({"keep": {"part": "p1", "strip": "desk/S 3"}}, 3),
        ({"keep": {"cable": ["reef/L", "desk/IN 4"]}}, 3),
        ({"avoid": {"jacks": ["desk/IN 1"]}}, 3),
        ({"match": ["p1"]}, 0),
        ({"separate": ["p1", "p2"]}, 4),
    ],
)
def test_strips_that_the_jam_tells_apart_stay_apart(intent: Table, left: int) -> None:
    assert sum(len(shelf.units) for shelf in shelves(studio(intent))) == left


def test_strips_of_other_gear_are_other_strips() -> None:
    asked = studio(strips={2: {"pan": "fixed"}, 3: {"pan": "fixed"}})
    assert [[unit.strip.name for unit in shelf.units] for shelf in shelves(asked)] == [["S 1", "S 4"], ["S 2", "S 3"]]


def test_a_kept_strip_and_alike_ones_are_used_side_by_side() -> None:
    plan = planned(studio(*apart(10, 20), {"keep": {"part": "p2", "strip": "desk/S 1"}}))
    assert plan.parts["p2"].strips == {"desk": ("S 1",)}
    assert plan.parts["p1"].strips == {"desk": ("S 2",)}


def test_a_matched_part_enters_the_strip_of_its_track() -> None:
    plan = planned(studio(*apart(10, 20), {"match": ["p1", "p2"]}))
    for part in plan.parts.values():
        assert part.strips == {"desk": (f"S {part.track[-1]}",)}


def test_only_parts_of_one_box_with_one_wish_go_the_same_way() -> None:
    plan = planned(studio(*apart(10, 20), {"treat": ["p3"], "with": {"reverb": 10}}, parts=3))
    assert plan.parts["p1"].pan == plan.parts["p3"].pan != plan.parts["p2"].pan


def test_a_strip_without_an_outlet_is_in_nobodys_way() -> None:
    dock = box("Dock", out=[named("MAIN", left="L", right="R")], engine=[named("1")], track=[named("A", plays="1")])
    reef = box("Reef", in_=[named("LINE", mono="IN")], strip=[named("S", from_="LINE")])
    plan = planned(jam({"dock": dock, "reef": reef}, ["bass"]))
    assert (plan.cables, plan.strips) == ((), {})
