"""Counting theorems on the main job: channels, amounts over sides, strips and drawers that match, cables as trees."""

from collections.abc import Iterator
from itertools import combinations, product
from math import comb, factorial
from typing import NamedTuple

from solver.jam.jam import Jam
from tests.building import Table, box, jam, named
from tests.outside.checks import check
from tests.outside.planning import best, cables, desk, module


def tracks(number: int) -> Jam:
    """So many parts that are no layer, each on an engine of one module, and a track for each."""
    lanes = [named(f"LANE {lane}") for lane in range(1, number + 1)]
    player = desk(1).model_copy(update={"tracks": box("Lanes", track=lanes).tracks})
    parts: dict[str, Table] = {f"part {engine}": {"on": f"reef/{engine}"} for engine in range(1, number + 1)}
    return jam({"dock": player, "reef": module(number, 1)}, parts)


@check(
    "16 parts on tracks of their own can play one box, and 17 cannot",
    source="Pigeonhole principle, with the 16 channels of MIDI 1.0 Detailed Specification 4.2.1, p. 3",
    kind="theorem",
    right={"16": (16, True), "17": (17, False)},
    wrong=(17, True),
)
def test_channels_are_pigeonholes(of: tuple[int, bool]) -> None:
    number, possible = of
    plan = best(tracks(number))
    assert (plan is not None) == possible
    if plan is not None:
        assert len({part.channel for part in plan.parts.values()}) == number


def partitions(number: int) -> Iterator[tuple[int, ...]]:
    """Every way to part so many things into blocks, as the block of each, blocks counted as they come."""
    for blocks in product(range(number), repeat=number):
        if all(block <= max(blocks[:place], default=-1) + 1 for place, block in enumerate(blocks)):
            yield blocks


def stirling(number: int, blocks: int) -> int:
    """The ways to part so many things into so many blocks, of the second kind."""
    signed: list[int] = [(-1) ** left * comb(blocks, left) * (blocks - left) ** number for left in range(blocks)]
    return sum(signed) // factorial(blocks)


class Amounts(NamedTuple):
    """So many parts of one module, the outlet sides that it has, and how many ways of ducking them can be had."""

    parts: int
    sides: int
    ways: int


def ducked(blocks: tuple[int, ...], sides: int) -> Jam:
    """Parts that duck by the amount of their block, on a module with one stereo outlet and perhaps a mono one."""
    outlets = [named("MAIN", left="L", right="R"), *([named("AUX", mono="AUX")] if sides == 3 else [])]
    reef = box(
        "Reef",
        out=outlets,
        engine=[named(str(n), to=[outlet["name"] for outlet in outlets]) for n in range(len(blocks))],
        midi=[named("MIDI IN", way="in")],
    )
    plain = desk(len(blocks), "ducking")
    pad = box("Pad", engine=[named("PAD", channels=[])], track=[named("PADS", channels=[], plays="PAD")])
    keyed = [strip.model_copy(update={"key": ("PAD",)}) for strip in plain.strips]
    dock = plain.model_copy(
        update={"strips": tuple(keyed), "engines": pad.engines, "tracks": (*pad.tracks, *plain.tracks)}
    )
    parts: dict[str, Table] = {f"part {n}": {"on": f"reef/{n}"} for n in range(len(blocks))}
    wishes = [
        {"treat": [f"part {n}"], "with": {"ducking": 10 + 10 * block}, "key": "kick"} for n, block in enumerate(blocks)
    ]
    layers = [{"layer": list(parts)}] if len(parts) > 1 else []
    return jam({"dock": dock, "reef": reef}, parts | {"kick": {"on": "dock/PAD"}}, *layers, *wishes)


@check(
    "Amounts over sides are set partitions: those with a side for each block can be had, over a cable a block",
    source="Stirling numbers of the second kind: S(n, 1) + S(n, 2) with two sides, and S(n, 3) more with three",
    kind="theorem",
    right={
        "4 parts, 2 sides": Amounts(4, 2, stirling(4, 1) + stirling(4, 2)),
        "4 parts, 3 sides": Amounts(4, 3, stirling(4, 1) + stirling(4, 2) + stirling(4, 3)),
        "3 parts, 2 sides": Amounts(3, 2, 4),
    },
    wrong=Amounts(3, 2, 5),
)
def test_amounts_over_sides_are_set_partitions(of: Amounts) -> None:
    found = {blocks: cables(ducked(blocks, of.sides)) for blocks in partitions(of.parts)}
    had = {blocks: count for blocks, count in found.items() if count is not None}
    assert len(had) == of.ways
    assert all(count == len(set(blocks)) + 1 for blocks, count in had.items())


Offers = tuple[frozenset[int], ...]
"""The strips that offer each part its effect."""


def chosen(offers: Offers, strips: int) -> Jam:
    """Parts that are all separate, each wanting an effect that only some strips offer."""
    plain = desk(strips)
    offering = [
        strip.model_copy(update={"offers": tuple(f"effect {part}" for part, at in enumerate(offers) if place in at)})
        for place, strip in enumerate(plain.strips)
    ]
    parts: dict[str, Table] = {f"part {part}": {"on": f"reef/{part + 1}"} for part in range(len(offers))}
    wishes = [{"treat": [f"part {part}"], "with": {f"effect {part}": 50}} for part in range(len(offers))]
    dock = plain.model_copy(update={"strips": tuple(offering)})
    boxes = {"dock": dock, "reef": module(len(offers), len(offers))}
    return jam(boxes, parts, {"layer": list(parts)}, {"separate": list(parts)}, *wishes)


def everyone_can_choose(offers: Offers) -> bool:
    """Hall's condition: any parts together are offered at least as many strips as they are."""
    return all(
        len(frozenset[int]().union(*some)) >= len(some)
        for size in range(1, len(offers) + 1)
        for some in combinations(offers, size)
    )


OFFERS = [frozenset(some) for size in (1, 2, 3) for some in combinations(range(3), size)]
"""Every choice of strips, of three, that can be offered to a part."""


@check(
    "Separate parts that each need an effect find strips where any of them together are offered enough",
    source="Hall 1935, the marriage theorem (from memory)",
    kind="theorem",
    right={
        " ".join("".join(map(str, sorted(offered))) for offered in offers): (offers, everyone_can_choose(offers))
        for offers in combinations(OFFERS, 3)
    },
    wrong=((OFFERS[0], OFFERS[1], OFFERS[3]), True),
)
def test_strips_match_parts(of: tuple[Offers, bool]) -> None:
    offers, possible = of
    assert (cables(chosen(offers, 3)) is not None) == possible


def plugged(drawer: tuple[int, int, int]) -> Jam:
    """Two modules with a big jack and two with a small one, and a leader with enough inlets of both sizes."""
    sizes = ("6.35", "6.35", "3.5", "3.5")
    lines = [(size, number) for size in ("6.35", "3.5") for number in range(4)]
    boxes = {
        "dock": box(
            "Dock",
            out=[named("MAIN", left="OUT L", right="OUT R")],
            in_=[named(f"LINE {size} {number}", mono=f"IN {size} {number}", plug=size) for size, number in lines],
            strip=[named(f"{size} {number}", from_=f"LINE {size} {number}") for size, number in lines],
            track=[named("LANE")],
            midi=[named(f"OUT {number}", way="out") for number in range(4)],
        )
    }
    parts: dict[str, Table] = {}
    for number, size in enumerate(sizes):
        sockets = {"out": [named("OUT", mono="OUT", plug=size)], "midi": [named("IN", way="in")]}
        boxes[f"reef {number}"] = box(f"Reef {number}", engine=[named("1")], **sockets)
        parts[f"part {number}"] = {"on": f"reef {number}"}
    kinds = ("6.35 mono", "3.5 mono", "3.5 mono > 6.35 mono")
    held = dict(zip(kinds, drawer, strict=True)) | {"din": 4}
    return jam(boxes, parts, {"layer": list(parts)}, cables=held)


@check(
    "A drawer of big, small and mixed leads serves two big and two small jacks just where there is a matching",
    source="Hall 1935, on jacks and the leads that fit them",
    kind="theorem",
    right={
        f"{big} big, {small} small, {mixed} mixed": (
            (big, small, mixed),
            big + mixed >= 2 and small + mixed >= 2 and big + small + mixed >= 4,
        )
        for big, small, mixed in product(range(4), repeat=3)
        if 3 <= big + small + mixed <= 5
    },
    wrong=((3, 1, 0), True),
)
def test_drawers_match_jacks(of: tuple[tuple[int, int, int], bool]) -> None:
    drawer, served = of
    assert (cables(plugged(drawer)) is not None) == served


class Driven(NamedTuple):
    """Boxes to drive: so many outs of the leader, boxes with a thru, and boxes without."""

    outs: int
    thrus: int
    ends: int


def chained(of: Driven) -> Jam:
    """A leader and boxes that all play, heard over inlets and strips of the leader."""
    count = of.thrus + of.ends
    plain = desk(count)
    outs = box("Outs", midi=[named(f"OUT {number}", way="out") for number in range(of.outs)])
    boxes = {"dock": plain.model_copy(update={"ports": outs.ports})}
    parts: dict[str, Table] = {}
    for number in range(count):
        thru = [named("THRU", way="thru", copies="IN")] if number < of.thrus else []
        sockets = {"out": [named("OUT", mono="OUT")], "midi": [named("IN", way="in"), *thru]}
        boxes[f"reef {number}"] = box(f"Reef {number}", engine=[named("1")], **sockets)
        parts[f"part {number}"] = {"on": f"reef {number}"}
    layers = [{"layer": list(parts)}] if count > 1 else []
    return jam(boxes, parts, *layers)


@check(
    "B boxes are driven over B MIDI cables, where each box without a thru has an out of the leader to spare",
    source="A tree on B + 1 nodes has B edges; every thru gives back the socket that its box takes",
    kind="theorem",
    right={
        f"{of.outs} outs, {of.thrus} with and {of.ends} without a thru": (of, of.ends <= of.outs)
        for of in (Driven(outs, thrus, ends) for outs in (1, 2, 3) for thrus in range(4) for ends in range(4))
        if of.thrus + of.ends
    },
    wrong=(Driven(1, 3, 2), True),
)
def test_trees_of_midi_cables(of: tuple[Driven, bool]) -> None:
    driven, possible = of
    count = driven.thrus + driven.ends
    assert cables(chained(driven)) == (2 * count if possible else None)
