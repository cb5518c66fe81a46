"""What the follower says of any plan, against reachability in graphs."""

from collections.abc import Sequence
from typing import NamedTuple

import networkx as nx

import solver
from solver.flow.followed import Followed
from solver.gear.words import Spot
from solver.jam.intents import Stereo
from solver.jam.jam import Jam
from solver.plans import Plan
from tests.outside import graphs
from tests.outside.checks import check
from tests.outside.wirings import wiring

DESCENDANTS = "networkx, descendants"

FROM = 6_000_000
"""Seeds from here on."""


class Wirings(NamedTuple):
    """Plans by chance; the graph of each does without its last cables, so many."""

    seeds: range
    without: int = 0


RIGHT = {f"plans from {first}": Wirings(range(FROM + first, FROM + first + 20)) for first in (0, 20)}
WRONG = Wirings(range(FROM, FROM + 5), without=1)


def _plans(value: Wirings) -> list[tuple[Jam, Plan, Plan]]:
    """Each jam with the plan that is followed and the one that is made a graph."""
    found = []
    for seed in value.seeds:
        for which in range(6):
            jam, plan = wiring(seed, which)
            kept = plan.cables[: len(plan.cables) - value.without]
            found.append((jam, plan, plan.model_copy(update={"cables": kept})))
    return found


def _voices(jam: Jam, plan: Plan) -> list[tuple[str, str, Sequence[graphs.Node]]]:
    """Each part, each of its voices, and the sides of its outlet where that starts."""
    found: list[tuple[str, str, Sequence[graphs.Node]]] = []
    for part, home in plan.parts.items():
        box = home.engine.split("/")[0]
        onto = next(graphs.sides(outlet) for outlet in jam.boxes[box].outlets if outlet.name == home.outlet)
        for voice in ("left", "right") if part in jam.parts_of(Stereo) else ("whole",):
            on = graphs.lands(home.pan, onto)
            starts = (voice,) if voice in on else on
            found.append((part, voice, [("out", box, home.outlet, side) for side in starts]))
    return found


@check(
    "The sound of each part is on just the sides of outlets, and enters just the strips, that it can reach",
    source=DESCENDANTS,
    kind="reference library",
    right=RIGHT,
    wrong=WRONG,
)
def test_where_sound_goes(value: Wirings) -> None:
    met = 0
    for jam, plan, wired in _plans(value):
        followed, graph = Followed(jam, plan), graphs.sound(jam, wired)
        for part, voice, starts in _voices(jam, plan):
            reached = graphs.reached(graph, starts)
            met += len(reached) - len(starts)
            for outlet, gear in jam.rig.outlets.items():
                on = {side for side in gear.sides if voice in followed.sound.voices_on(outlet, side, part)}
                assert on == {side for side in gear.sides if ("out", outlet.box, outlet.name, side) in reached}
            for strip in jam.rig.strips:
                enters = any(node[:3] == ("strip", strip.box, strip.name) for node in reached)
                assert (voice in followed.sound.voices_in(strip, part)) == enters
    assert met


@check(
    "A part is heard over just the strips that it reaches and from which it goes on to the ears",
    source="networkx, descendants and ancestors",
    kind="reference library",
    right=RIGHT,
    wrong=WRONG,
)
def test_over_which_strips_it_is_heard(value: Wirings) -> None:
    met = 0
    for jam, plan, wired in _plans(value):
        followed, graph = Followed(jam, plan), graphs.sound(jam, wired)
        ears = [("out", jam.ears.box, jam.ears.name, side) for side in jam.rig.outlets[jam.ears].sides]
        leading = {node for ear in ears if ear in graph for node in nx.ancestors(graph, ear)}
        over: dict[str, set[graphs.Node]] = {part: set() for part in plan.parts}
        for part, _, starts in _voices(jam, plan):
            over[part] |= {node for node in graphs.reached(graph, starts) & leading if node[0] == "strip"}
        told = {part: {(strip.box, strip.name) for strip in strips} for part, strips in followed.heard_over.items()}
        assert told == {part: {node[1:3] for node in nodes} for part, nodes in over.items()}
        met += any(told.values())
    assert met


@check(
    "The notes of each box pass just the ports that they can reach, and each engine sounds for just those tracks that"
    " reach it on its channel",
    source=DESCENDANTS,
    kind="reference library",
    right=RIGHT,
    wrong=WRONG,
)
def test_where_notes_go(value: Wirings) -> None:
    met = 0
    for jam, plan, wired in _plans(value):
        followed, graph = Followed(jam, plan), graphs.notes(jam, wired)
        passed = {
            name: graphs.reached(graph, [(f"{name}/{p.name}", "out") for p in box.ports if p.way in ("out", "both")])
            for name, box in jam.boxes.items()
            if box.tracks
        }
        for name, halves in followed.notes.passed.items():
            assert {(str(half.port), "out" if half.leaves else "in") for half in halves} == passed[name]
        sounding = _sounding(jam, plan, passed)
        assert {engine: set(tracks) for engine, tracks in followed.notes.sounding.items()} == sounding
        met += any(sounding.values())
    assert met


def _sounding(jam: Jam, plan: Plan, passed: dict[str, set[graphs.Node]]) -> dict[Spot, set[Spot]]:
    """M3: the tracks for which each engine sounds; the first part of a track says on which channel it sends."""
    sends: dict[Spot, int | None] = {}
    for part in jam.parts:
        if part in plan.parts:
            sends.setdefault(Spot.parse(plan.parts[part].track), plan.parts[part].channel)
    found: dict[Spot, set[Spot]] = {}
    for engine, gear in jam.rig.engines.items():
        planned = plan.engines.get(str(engine))
        listens = gear.stands if planned is None else planned.channel
        ins = {(f"{engine.box}/{port.name}", "in") for port in jam.boxes[engine.box].ports if port.takes}
        found[engine] = {
            track
            for track, channel in sends.items()
            if (track.box == engine.box and jam.rig.tracks[track].plays == engine.name)
            or (track.box != engine.box and channel and listens in ("all", channel) and ins & passed[track.box])
        }
    return found


@check(
    "A plan is told to lead in a loop just where its boxes, or its ports, do",
    source="networkx, is_directed_acyclic_graph and descendants",
    kind="reference library",
    right=RIGHT,
    wrong=Wirings(range(FROM, FROM + 5), without=2),
)
def test_what_comes_round(value: Wirings) -> None:
    met = set()
    for jam, plan, wired in _plans(value):
        told = {breach.rule for breach in solver.check(jam, plan) if "loop" in breach.where or "notes" in breach.where}
        graph, back = graphs.notes(jam, wired), False
        for name, box in jam.boxes.items():
            outs = [(f"{name}/{port.name}", "out") for port in box.ports if box.tracks and port.way in ("out", "both")]
            ins = {(f"{name}/{port.name}", "in") for port in box.ports}
            back = back or bool(ins & graphs.reached(graph, outs))
        assert ("A6" in told) != nx.is_directed_acyclic_graph(graphs.boxes(wired))
        assert ("M1" in told) == (back or not nx.is_directed_acyclic_graph(graph))
        met |= {("A6" in told, "M1" in told)}
    assert len(met) > 2
