"""Parts that differ in one trait alone do not share their way of sound: each jam here has another answer if they do."""

from typing import Any

import pytest

import solver
from solver.gear.box import Box
from solver.jam.jam import Jam
from solver.outcome import Impossible, Planned
from solver.plans import Plan
from tests.building import Table, box, jam, named

BOTH = {"p": {"on": "reef"}, "q": {"on": "reef"}}
KEYS = {"kick": {"on": "desk/PAD 1"}, "rim": {"on": "desk/PAD 2"}}


def treat(*parts: str, key: str | None = None, at: str | None = None, **amounts: int) -> Table:
    said = {"key": key, "at": at}
    return {"treat": list(parts), "with": amounts} | {name: value for name, value in said.items() if value is not None}


def desk(lines: int = 2, **tables: list[Table]) -> Box:
    """A leader with mono strips that offer all effects, two pads that are keys, and a track for each strip."""
    numbers = range(1, lines + 1)
    offers, key = ["ducking", "reverb", "delay"], ["PAD 1", "PAD 2"]
    plain = {
        "out": [named("MAIN", left="L", right="R")],
        "in_": [named(f"LINE {n}", mono=f"IN {n}") for n in numbers],
        "strip": [named(f"S {n}", from_=f"LINE {n}", offers=offers, key=key, track=f"T {n}") for n in numbers],
        "engine": [named(pad, channels=[]) for pad in key],
        "track": [*(named(f"T {n}", channel=n) for n in range(1, 4)), *(named(pad, plays=pad) for pad in key)],
        "midi": [named(f"OUT {n}", way="out") for n in (1, 2)],
    }
    return box("Desk", **(plain | tables))


def reef(*engines: Table, **tables: list[Table]) -> Box:
    """A module with the engines given, or two alike, on channels of their own."""
    plain = {
        "out": [named("MAIN", left="L", right="R")],
        "engine": [named(str(n), channel=n, **engine) for n, engine in enumerate(engines or ({}, {}), start=1)],
        "midi": [named("IN", way="in")],
    }
    return box("Reef", **(plain | tables))


def studio(*intents: Table, parts: dict[str, Table] | None = None, **boxes: Box) -> Jam:
    return jam({"desk": desk(), "reef": reef()} | boxes, parts or BOTH, *intents)


def planned(asked: Jam) -> Plan:
    outcome = solver.plan(asked)
    assert isinstance(outcome, Planned)
    return outcome.best


def strips(plan: Plan, *parts: str) -> list[Any]:
    return [plan.parts[part].strips for part in parts]


def test_parts_with_equal_wishes_share_a_strip() -> None:
    plan = planned(studio(treat("p", "q", reverb=10)))
    assert strips(plan, "p", "q") == [{"desk": ("S 1",)}] * 2


def test_two_amounts_take_two_strips() -> None:
    plan = planned(studio(treat("p", reverb=10), treat("q", reverb=20)))
    assert strips(plan, "p", "q") == [{"desk": ("S 1",)}, {"desk": ("S 2",)}]


def test_two_effects_are_both_had() -> None:
    plan = planned(studio(treat("p", reverb=10), treat("q", delay=10)))
    assert plan.strips is not None
    assert {"reverb": 10, "delay": 10}.items() <= plan.strips["desk/S 1"].settings.items()


def test_two_keys_take_two_strips() -> None:
    parts = BOTH | KEYS
    plan = planned(studio(treat("p", ducking=10, key="kick"), treat("q", ducking=10, key="rim"), parts=parts))
    assert strips(plan, "p", "q") == [{"desk": ("S 1",)}, {"desk": ("S 2",)}]


def test_effects_are_had_in_the_box_that_is_named() -> None:
    weir = box(
        "Weir",
        out=[named("MIX", mono="MIX")],
        in_=[named("CH", mono="CH")],
        strip=[named("1", from_="CH", offers=["reverb"])],
    )
    wishes = treat("p", reverb=10, at="weir"), treat("q", reverb=10, at="desk")
    plan = planned(studio(*wishes, weir=weir))
    assert strips(plan, "p", "q") == [{"weir": ("1",), "desk": ("S 2",)}, {"desk": ("S 1",)}]


@pytest.mark.parametrize("on", ["reef", "reef/2"])
def test_engines_that_treat_are_each_set(on: str) -> None:
    boxes = {"desk": desk(1, strip=[named("S 1", from_="LINE 1")]), "reef": reef(*[{"offers": ["reverb"]}] * 2)}
    plan = planned(studio(treat("p", "q", reverb=10), parts={"p": {"on": "reef"}, "q": {"on": on}}, **boxes))
    assert plan.engines is not None
    assert [plan.engines[f"reef/{n}"].settings for n in (1, 2)] == [{"reverb": 10}] * 2


def test_two_amounts_share_a_strip_where_their_engines_treat_them() -> None:
    plain, own = desk(1, strip=[named("S 1", from_="LINE 1")]), reef(*[{"offers": ["reverb"]}] * 2)
    plan = planned(studio(treat("p", reverb=10), treat("q", reverb=20), desk=plain, reef=own))
    assert strips(plan, "p", "q") == [{"desk": ("S 1",)}] * 2


def test_two_amounts_leave_by_one_stereo_jack() -> None:
    outs = [named("MAIN", stereo="OUT", plug="3.5")]
    plan = planned(studio(treat("p", reverb=10), treat("q", reverb=20), reef=reef(out=outs)))
    assert plan.cables[0].to == ("desk/IN 1", "desk/IN 2")


def test_separate_parts_take_two_strips() -> None:
    plan = planned(studio({"separate": ["p", "q"]}))
    assert strips(plan, "p", "q") == [{"desk": ("S 1",)}, {"desk": ("S 2",)}]


def test_a_kept_pan_moves_no_other_part() -> None:
    plan = planned(studio({"keep": {"part": "p", "pan": "left"}}))
    assert [plan.parts[part].pan for part in ("p", "q")] == ["left", "centre"]


def test_matched_parts_of_two_layers_take_two_strips() -> None:
    plan = planned(studio({"match": ["p", "q"]}))
    assert [plan.parts[part].strips for part in ("p", "q")] == [
        {"desk": (f"S {plan.parts[part].track[-1]}",)} for part in ("p", "q")
    ]


def test_a_stereo_part_does_not_follow_a_mono_one() -> None:
    lines = [named("WIDE", left="IN L", right="IN R"), named("LINE", mono="IN")]
    both = [named("W", from_="WIDE"), named("S", from_="LINE")]
    plan = planned(studio({"stereo": ["q"]}, desk=desk(in_=lines, strip=both)))
    assert strips(plan, "p", "q") == [{"desk": ("W",)}] * 2


def test_parts_of_two_boxes_are_both_heard() -> None:
    parts = {"p": {"on": "reef"}, "q": {"on": "cove"}}
    plan = planned(studio(treat("p", "q", reverb=10), parts=parts, cove=reef()))
    assert [cable.source for cable in plan.cables] == ["reef/L", "cove/L", "desk/OUT 1", "desk/OUT 2"]


def test_engines_with_outlets_of_their_own_are_both_heard() -> None:
    outs = [named("A", mono="A"), named("B", mono="B")]
    plan = planned(studio(reef=reef({"to": ["A"]}, {"to": ["B"]}, out=outs)))
    assert [cable.source for cable in plan.cables] == ["reef/A", "reef/B", "desk/OUT 1"]


def test_a_fixed_engine_does_not_follow_one_that_pans() -> None:
    parts = {"p": {"on": "reef/1"}, "q": {"on": "reef/2"}, "r": {"on": "reef/3"}}
    asked = studio(treat("p", "q", reverb=10), treat("r", reverb=20), parts=parts, reef=reef({}, {"pan": "fixed"}, {}))
    assert isinstance(solver.plan(asked), Impossible)


def test_two_amounts_may_leave_by_the_mirror_of_a_mirror() -> None:
    outs = [
        named("MAIN", left="L", right="R"),
        named("COPY", left="CL", right="CR", mirrors="MAIN"),
        named("TAPE", left="TL", right="TR", mirrors="COPY"),
    ]
    shunned = {"avoid": {"jacks": ["reef/L", "reef/R", "reef/CL", "reef/CR"]}}
    plan = planned(studio(treat("p", reverb=10), treat("q", reverb=20), shunned, reef=reef(out=outs)))
    assert [cable.source for cable in plan.cables[:2]] == ["reef/TL", "reef/TR"]


def free(*engines: int, **on: str) -> Jam:
    """Four parts with one wish, on any of some modules with so many engines each if ``on`` says nothing else."""
    boxes = {f"reef{n}": reef(*[{}] * count) for n, count in enumerate(engines, start=1)}
    parts: dict[str, Table] = {f"p{n}": {} for n in range(1, 5)} | {part: {"on": box} for part, box in on.items()}
    tracks = [named(f"T {n}", channel=n) for n in range(1, 9)]
    chief = desk(len(engines), track=tracks, midi=[named(f"OUT {n}", way="out") for n in range(1, len(engines) + 1)])
    return jam({"desk": chief, **boxes}, parts, treat(*parts, reverb=10))


@pytest.mark.parametrize(("engines", "cables"), [((4, 4), 2), ((3, 4), 2), ((3, 3), 4), ((2, 1, 1), 6), ((1, 4, 2), 2)])
def test_parts_that_may_live_anywhere_fill_as_few_boxes_as_they_can(engines: tuple[int, ...], cables: int) -> None:
    plan = planned(free(*engines))
    assert len(plan.cables) == cables
    assert plan.status == "proved"


def test_parts_of_one_wish_may_live_on_several_boxes_with_other_ways() -> None:
    plan = planned(free(2, 2, p1="reef1", p2="reef2"))
    assert {plan.parts[part].engine.split("/")[0] for part in ("p3", "p4")} == {"reef1", "reef2"}


def test_a_strip_lists_the_effects_that_its_parts_want_and_no_other() -> None:
    plan = planned(studio(treat("p", reverb=20), treat("q", delay=0), {"separate": ["p", "q"]}))
    listed = {part: [plan.strips[f"desk/{name}"].settings for name in strips(plan, part)[0]["desk"]] for part in BOTH}
    assert listed == {"p": [{"reverb": 20}], "q": [{"delay": 0}]}
