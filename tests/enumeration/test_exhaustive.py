"""Trying everything does try everything, and its jams say everything."""

from collections import Counter

import pytest
from networkx import Graph, complete_bipartite_graph

from solver.gear.words import Spot
from tests.building import box, dock_and_reef, jam, module, named
from tests.enumeration.exhaustive import Cost, best
from tests.enumeration.features import FEATURES, features
from tests.enumeration.plugging import Lead, audio_leads, comes_round, midi_leads, onward_from, sets_of
from tests.enumeration.rigs import seeded
from tests.enumeration.sweep import main, smaller

FEW = {"channels": [1, 2]}


def _grid(graph: Graph) -> list[Lead]:
    return [Lead("any", (Spot("a", str(a)),), (Spot("b", str(b)),)) for a, b in graph.edges]


@pytest.mark.parametrize(("side", "matchings"), [(1, 2), (2, 7), (3, 34), (4, 209), (5, 1546)])
def test_every_set_of_cables_comes_once(side: int, matchings: int) -> None:
    """The matchings of two groups of n are counted by n!·L(n), with L the Laguerre polynomial at -1 (computed)."""
    every = list(sets_of(_grid(complete_bipartite_graph(side, side)), None))
    assert len(every) == len({frozenset(chosen) for chosen in every}) == matchings


def test_a_drawer_and_a_refusal_cut_sets_short() -> None:
    leads = _grid(complete_bipartite_graph(3, 3))
    assert Counter(map(len, sets_of(leads, Counter({"any": 2})))) == {0: 1, 1: 9, 2: 18}
    assert Counter(map(len, sets_of(leads, None, lambda chosen: len(chosen) < 2))) == {0: 1, 1: 9}
    assert list(sets_of(leads, Counter())) == [()]


def test_every_cable_that_fits() -> None:
    boxes = {
        "reef": box("Reef", out=[named("MAIN", left="L", right="R", plug="6.35"), named("CUE", stereo="CUE")]),
        "dock": box("Dock", in_=[named("LINE", left="1", right="2"), named("FX", stereo="FX", plug="3.5")]),
    }
    found = Counter(lead.kind for lead in audio_leads(jam(boxes, ()).rig))
    assert found == {
        "6.35 mono": 4,
        "3.5 stereo > 6.35 stereo": 1,
        "6.35 stereo > 2x 6.35 mono": 2,
        "3.5 stereo > 2x 6.35 mono": 2,
    }


def test_a_usb_cable_is_one_though_it_passes_both_ways() -> None:
    host = box("Host", out=[named("MAIN", mono="M")], midi=[named("USB", way="both", plug="usb-host")])
    device = box("Device", midi=[named("USB", way="both", plug="usb-device"), named("OUT", way="out", plug="trs-a")])
    assert [lead.kind for lead in midi_leads(jam({"host": host, "device": device}, ()).rig)] == ["usb"]


def test_what_comes_round_and_what_follows() -> None:
    line = [(1, 2), (2, 3), (1, 3), (4, 5)]
    assert not comes_round(line)
    assert comes_round([*line, (3, 1)])
    assert onward_from([1], line) == {1, 2, 3}


def test_two_parts_on_two_sides_of_a_module() -> None:
    """By hand: a cable a side and one for notes; two pans move, and channels stand where they should."""
    reef = module(engine=[named("1", channel=1, **FEW), named("2", channel=2, **FEW)])
    apart = dock_and_reef(
        {"separate": ["bass", "arp"]}, parts={"bass": {"on": "reef"}, "arp": {"on": "reef"}}, reef=reef
    )
    tracks = [named("EXT 1", channel=1, **FEW), named("EXT 2", channel=2, **FEW)]
    dock = apart.boxes["dock"].model_copy(update={"tracks": box(track=tracks).tracks})
    found = best(apart.model_copy(update={"boxes": dict(apart.boxes) | {"dock": dock}}))
    assert found is not None
    assert found.cost == Cost(cables=3, silenced=0, moved=2)
    assert sorted(part.pan for part in found.plan.parts.values()) == ["left", "right"]


def test_no_plan_where_two_parts_share_one_engine() -> None:
    alone = box("Alone", out=[named("MAIN", mono="M")], engine=[named("E", channels=[])], track=[named("T", plays="E")])
    assert best(jam({"alone": alone}, ("bass",))) is not None
    assert best(jam({"alone": alone}, ("bass", "arp"))) is None


def test_seeded_jams_are_the_same_every_time_and_say_everything() -> None:
    assert seeded(7) == seeded.__wrapped__(7)
    said = set().union(*(features(seeded(seed)) for seed in range(100)))
    assert sorted(FEATURES - said) == []


def test_a_sweep_that_finds_nothing(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(3, 0) == 0
    assert "0 differ" in capsys.readouterr().out


def test_smaller_data_leaves_out_one_piece_at_a_time() -> None:
    assert list(smaller({"a": [1, 2], "b": 3})) == [{"b": 3}, {"a": [1, 2]}, {"a": [2], "b": 3}, {"a": [1], "b": 3}]
