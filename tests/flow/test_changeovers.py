"""What is done between two jams: what hands move, what comes with a project, and what has been made in advance."""

from typing import Any

from solver.flow.changeovers import Move, changeovers
from solver.flow.followed import Followed
from solver.flow.needs import Need, needs
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.plans import Plan
from tests.building import BASS, dock_and_reef, module, named, plain_plan

REVERB = Need("strip", Spot("dock", "IN 1"), "reverb")
PAN = Need("engine", Spot("reef", "1"), "pan")
BOTH = {"dock": "1", "reef": "1"}


def _strip(reverb: int) -> dict[str, Any]:
    return {"dock/IN 1": {"outlet": "MAIN", "settings": {"reverb": reverb}}}


def _jam(recall: dict[str, str]) -> Jam:
    return dock_and_reef(recall=recall)


def _moves(*turns: tuple[dict[str, str], Plan]) -> list[list[Move]]:
    followed = Followed.together((_jam(recall) for recall, _ in turns), (plan for _, plan in turns))
    return [list(one.moves) for one in changeovers(followed)]


def test_what_no_project_brings_is_moved_by_hand() -> None:
    wet, dry = plain_plan(strips=_strip(20)), plain_plan(strips=_strip(0))
    assert _moves((BOTH, wet), ({"reef": "2"}, dry)) == [[Move(REVERB, 20, 0, by_hand=True)]]
    assert _moves((BOTH, wet), (BOTH, dry)) == [[Move(REVERB, 20, 0, by_hand=False)]]


def test_where_no_jam_names_a_slot_the_projects_are_recalled_all_the_same() -> None:
    wet, dry = plain_plan(strips=_strip(20)), plain_plan(strips=_strip(0))
    assert _moves(({}, wet), ({}, dry)) == [[Move(REVERB, 20, 0, by_hand=False)]]


def test_what_is_as_it_was_is_no_move() -> None:
    wet = plain_plan(strips=_strip(20))
    assert _moves((BOTH, wet), ({"reef": "2"}, wet), (BOTH, wet)) == [[], []]


def test_a_jam_that_does_not_need_it_leaves_it_where_it_is() -> None:
    wet, none = plain_plan(strips=_strip(20)), plain_plan([], without=("bass", "arp"))
    hands = {"reef": "2"}
    assert REVERB not in needs(Followed(_jam({}), none))
    assert _moves((BOTH, wet), (hands, none), (hands, wet)) == [[], []]
    assert _moves((BOTH, wet), (hands, none), (hands, plain_plan(strips=_strip(40)))) == [
        [],
        [Move(REVERB, 20, 40, by_hand=True)],
    ]


def test_a_project_recalled_earlier_brings_what_a_later_jam_needs() -> None:
    """The second jam does not need the strip, but its project is recalled there and can have it ready for the third."""
    wet, wetter = plain_plan(strips=_strip(20)), plain_plan(strips=_strip(40))
    none = plain_plan([], without=("bass", "arp"))
    assert _moves((BOTH, wet), (BOTH, none), ({"reef": "3"}, wetter)) == [[], []]


def test_what_the_box_stores_is_never_moved_between_jams() -> None:
    """Another value there is a fault of the plan, which rule S1 names."""
    reef = module(engine=[named("1", channel=1, stored={"pan": "box"}), named("2", channel=2)])
    jams = [dock_and_reef(reef=reef, recall={"dock": "1"}) for _ in range(2)]
    plans = [plain_plan(), plain_plan(bass=BASS | {"pan": "centre"})]
    (change,) = changeovers(Followed.together(jams, plans))
    assert PAN not in [move.need for move in change.moves]


def test_needs_are_told_of_what_is_in_use_alone() -> None:
    needed = needs(Followed(_jam({}), plain_plan(without=("arp",))))
    assert needed[PAN] == "left"
    assert Need("engine", Spot("reef", "2"), "pan") not in needed
    assert needed[Need("engine", Spot("reef", "2"), "channel")] == 2
    assert Need("track", Spot("dock", "EXT 2"), "channel") not in needed
