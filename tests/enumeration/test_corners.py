"""Corners that chance seldom reaches: the planner and trying everything agree there too, on the cost known by hand."""

from typing import Any

import pytest

from solver.gear.box import Box
from solver.jam.jam import Jam
from tests.building import box, jam, named
from tests.enumeration.agreement import compare, report
from tests.enumeration.exhaustive import Cost

FEW = {"channels": [1, 2]}


def _agree(table: Jam, cost: Cost | None) -> None:
    compared = compare(table)
    if compared.differences:
        pytest.fail(report(table, compared), pytrace=False)
    assert (compared.tried.cost if compared.tried is not None else None) == cost


def _player(name: str, midi: list[dict[str, Any]], **tables: Any) -> Box:
    """A box with one engine and one track that does not play it, and a stereo inlet with its strip."""
    plain: dict[str, Any] = {
        "out": [named("MAIN", stereo="MAIN")],
        "in_": [named("LINE", stereo="LINE")],
        "strip": [named("S", from_="LINE")],
        "engine": [named("E", **FEW)],
        "track": [named("T", **FEW)],
        "midi": midi,
    }
    return box(name, **(plain | tables))


def _crossed(dock: list[dict[str, Any]], reef: list[dict[str, Any]]) -> Jam:
    """Two boxes that play each other's engines."""
    return jam(
        {"dock": _player("Dock", dock), "reef": _player("Reef", reef)},
        {"bass": {"on": "reef"}, "arp": {"on": "dock"}},
        {"play": ["arp"], "from": "reef"},
    )


IN, OUT = named("IN", way="in"), named("OUT", way="out")


def test_a_lead_each_way_is_no_loop() -> None:
    _agree(_crossed([IN, OUT], [IN, OUT]), Cost(cables=3, silenced=0, moved=0))


@pytest.mark.parametrize("both", [False, True])
def test_notes_that_a_repeat_brings_back(both: bool) -> None:
    repeats = OUT | {"repeats": "IN"}
    _agree(_crossed([IN, repeats if both else OUT], [IN, repeats]), None)


def test_one_usb_cable_carries_notes_both_ways() -> None:
    host, device = (named("USB", way="both", plug=f"usb-{end}") for end in ("host", "device"))
    _agree(_crossed([host], [device]), Cost(cables=2, silenced=0, moved=0))
    _agree(_crossed([host], [device | {"repeats": "USB"}]), None)


def test_a_ring_without_tracks_is_a_loop_though_cables_are_kept() -> None:
    ring = [named("IN", way="in"), named("THRU", way="thru", copies="IN")]
    table = {"dock": _player("Dock", [OUT]), "reef": box("Reef", midi=ring), "cove": box("Cove", midi=ring)}
    kept = [{"keep": {"cable": [f"{a}/THRU", f"{b}/IN"]}} for a, b in (("reef", "cove"), ("cove", "reef"))]
    _agree(jam(table, (), kept[0]), Cost(cables=1, silenced=0, moved=0))
    _agree(jam(table, (), *kept), None)


@pytest.mark.parametrize("way", ["thru", "out"])
@pytest.mark.parametrize("clock", [True, False])
def test_clock_inside_a_box_passes_where_its_in_port_has_clock(way: str, clock: bool) -> None:
    passing = {"copies": "IN"} if way == "thru" else {"repeats": "IN"}
    hub = [named("IN", way="in", clock=clock), named("OUT", way=way, clock=True, **passing)]
    last = [named("IN", way="in", plug="usb-device", clock=True)]
    boxes = {
        "dock": _player("Dock", [OUT | {"clock": True}]),
        "reef": box("Reef", midi=[hub[0], hub[1] | {"plug": "usb-host"}]),
        "cove": box("Cove", midi=last),
    }
    _agree(jam(boxes, (), {"clock": ["cove"]}), Cost(cables=2, silenced=0, moved=0) if clock else None)


@pytest.mark.parametrize("alone", ["sum", "own"])
def test_a_lone_left_jack_carries_the_right_where_it_sums(alone: str) -> None:
    reef = _player("Reef", [IN], out=[named("MAIN", left="L", right="R", alone=alone)], in_=[], strip=[])
    dock = _player("Dock", [OUT], in_=[named("LINE", mono="LINE")], strip=[named("S", from_="LINE")])
    wishes = ({"keep": {"part": "bass", "pan": "right"}}, {"avoid": {"jacks": ["reef/R"]}})
    cost = Cost(cables=2, silenced=0, moved=1) if alone == "sum" else None
    _agree(jam({"dock": dock, "reef": reef}, {"bass": {"on": "reef"}}, *wishes), cost)


def _many(strips: int) -> Jam:
    """Three parts, each with a mono outlet of its own, that should be separate on strips that are alike."""
    reef = box(
        "Reef",
        out=[named(f"OUT {n}", mono=f"OUT {n}") for n in range(3)],
        engine=[named(f"E{n}", to=f"OUT {n}", channels=[n + 1]) for n in range(3)],
        midi=[IN],
    )
    dock = box(
        "Dock",
        out=[named("MAIN", mono="MAIN")],
        in_=[named(f"IN {n}", mono=f"IN {n}") for n in range(strips)],
        strip=[named(f"S{n}", from_=f"IN {n}") for n in range(strips)],
        track=[named(f"T{n}", channels=[n + 1]) for n in range(3)],
        midi=[OUT],
    )
    parts = [f"part{n}" for n in range(3)]
    return jam({"dock": dock, "reef": reef}, parts, {"separate": parts})


def test_no_more_strips_that_are_alike_than_there_are() -> None:
    _agree(_many(3), Cost(cables=4, silenced=0, moved=0))
    _agree(_many(2), None)


@pytest.mark.parametrize(
    ("strips", "cost"),
    [
        ([named("L", from_="LINE/left"), named("R", from_="LINE/right")], Cost(cables=3, silenced=0, moved=2)),
        ([named("L", from_="LINE/left")], None),
        ([named("L", from_="LINE/left"), named("R", from_="LINE/right", pan="fixed")], None),
    ],
)
def test_a_stereo_part_over_a_pair_of_strips(strips: list[dict[str, Any]], cost: Cost | None) -> None:
    reef = _player("Reef", [IN], out=[named("MAIN", left="L", right="R")], in_=[], strip=[])
    dock = _player("Dock", [OUT], in_=[named("LINE", left="L", right="R")], strip=strips)
    _agree(jam({"dock": dock, "reef": reef}, {"bass": {"on": "reef"}}, {"stereo": ["bass"]}), cost)


def test_a_strip_without_an_outlet_may_take_what_nobody_hears() -> None:
    reef = _player(
        "Reef", [IN], in_=[], strip=[], out=[named("MAIN", mono="1"), named("CUE", mono="2", mirrors="MAIN")]
    )
    lines: dict[str, Any] = {"in_": [named("LINE", mono="LINE")], "strip": [named("S", from_="LINE")]}
    table = {"dock": _player("Dock", [OUT], **lines), "reef": reef, "cove": box("Cove", **lines)}
    kept = {"keep": {"cable": ["reef/2", "cove/LINE"]}}
    _agree(jam(table, {"bass": {"on": "reef"}}, kept), Cost(cables=3, silenced=0, moved=0))


def test_a_send_and_return_is_a_loop() -> None:
    dock = _player(
        "Dock",
        [],
        out=[named("MAIN", mono="MAIN"), named("AUX", stereo="AUX")],
        engine=[named("E", to=["MAIN", "AUX"], channels=[])],
        track=[named("T", plays="E")],
    )
    there = {"dock": dock, "reef": _player("Reef", [])}
    _agree(jam(there, ("bass",)), Cost(cables=0, silenced=0, moved=0))
    _agree(jam(there, ("bass",), {"separate": ["bass"], "at": "reef"}), None)


@pytest.mark.parametrize("stereo", [True, False])
def test_two_strips_on_one_side_are_two_ways_in(stereo: bool) -> None:
    reef = _player("Reef", [IN], in_=[], strip=[])
    dock = _player("Dock", [OUT], strip=[named("S1", from_="LINE"), named("S2", from_="LINE")])
    wishes = ({"stereo": ["bass"]},) if stereo else ()
    _agree(jam({"dock": dock, "reef": reef}, {"bass": {"on": "reef"}}, *wishes), None)


@pytest.mark.parametrize(
    ("wish", "cables"),
    [
        ({"treat": ["bass"], "with": {"reverb": 20}, "at": "cove"}, 3),
        ({"separate": ["bass"], "at": "cove"}, 3),
        ({"treat": ["bass"], "with": {"reverb": 20}}, 2),
    ],
)
def test_a_strip_counts_only_where_it_leads_on_to_your_ears(wish: dict[str, Any], cables: int) -> None:
    """A second outlet of the module could feed a strip of the cove that nobody hears: that is no way to be treated."""
    mirrored = [named("MAIN", mono="MAIN"), named("PHONES", mono="PHONES", mirrors="MAIN")]
    offers = [named("S", from_="LINE", offers=["reverb"])]
    table = {
        "dock": box(
            "Dock",
            out=[named("MAIN", mono="AUDIO OUT")],
            in_=[named("LINE", mono="AUDIO IN")],
            strip=offers,
            track=[named("T", **FEW)],
            midi=[OUT],
        ),
        "reef": box("Reef", out=mirrored, engine=[named("E", **FEW)], midi=[IN]),
        "cove": box("Cove", out=[named("MAIN", mono="AUDIO OUT")], in_=[named("LINE", mono="AUDIO IN")], strip=offers),
    }
    _agree(jam(table, {"bass": {"on": "reef"}}, wish), Cost(cables=cables, silenced=0, moved=0))
    if cables == 3:
        kept = {"keep": {"cable": ["reef/MAIN", "dock/AUDIO IN"]}}
        _agree(jam(table, {"bass": {"on": "reef"}}, wish, kept), None)
