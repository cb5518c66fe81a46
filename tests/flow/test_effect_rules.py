"""The rules of effects."""

from typing import Any

import pytest

from solver.rules.effects import Amounts, Keys
from tests.building import (
    BASS,
    KICK,
    LEFT,
    NOTES,
    RIGHT,
    box,
    breaches,
    cable,
    desk,
    dock_and_reef,
    jam,
    lives,
    module,
    named,
    plain_plan,
    plan,
)


def _treat(part: str = "bass", key: str | None = None, at: str | None = None, **amounts: int) -> dict[str, Any]:
    return {"treat": [part], "with": amounts} | ({"key": key} if key else {}) | ({"at": at} if at else {})


def _strip(key: str | None = None, **amounts: int) -> dict[str, Any]:
    return {"outlet": "MAIN", "settings": amounts} | ({"key": key} if key else {})


def _engine(key: str | None = None, **amounts: int) -> dict[str, Any]:
    return {"channel": 1, "settings": amounts} | ({"key": key} if key else {})


WET_REEF = module(engine=[named("1", channel=1, offers=["reverb"]), named("2", channel=2)])


def test_a_wanted_amount_on_the_strip() -> None:
    assert (
        breaches(Amounts, dock_and_reef(_treat(reverb=20)), plain_plan(strips={"dock/IN 1": _strip(reverb=20)})) == []
    )


def test_a_wanted_amount_on_the_engine_itself() -> None:
    table = dock_and_reef(_treat("kick", reverb=20))
    assert breaches(Amounts, table, plain_plan(engines={"dock/PAD": _engine(reverb=20) | {"channel": "off"}})) == []


def test_an_engine_and_a_strip_of_one_name_are_two_places() -> None:
    dock = desk(
        engine=[named("IN 1", channels=[], offers=["reverb"])],
        strip=[named("IN 1", from_="LINE/left", offers=["reverb"])],
        track=[named("PADS", channels=[], plays="IN 1"), named("EXT 1"), named("EXT 2", channel=2)],
    )
    table = dock_and_reef(_treat("kick", reverb=20), dock=dock)
    kick = KICK | {"engine": "dock/IN 1"}
    on_engine = plain_plan(kick=kick, engines={"dock/IN 1": _engine(reverb=20) | {"channel": "off"}})
    assert breaches(Amounts, table, on_engine) == []
    assert breaches(Amounts, table, plain_plan(kick=kick, strips={"dock/IN 1": _strip(reverb=20)})) == [
        "kick wants reverb 20 on its way, its engine and strips have 0",
        "dock/IN 1 has reverb 20, no part there wants reverb",
    ]


def test_a_wanted_amount_that_is_not_set() -> None:
    assert breaches(Amounts, dock_and_reef(_treat(reverb=20)), plain_plan()) == [
        "bass wants reverb 20 on its way, its engine and strips have 0"
    ]
    assert breaches(Amounts, dock_and_reef(_treat(reverb=20, at="reef")), plain_plan()) == [
        "bass wants reverb 20 at reef, its engine and strips have 0"
    ]


def test_a_part_that_the_plan_leaves_out_wants_nothing() -> None:
    table = dock_and_reef(_treat(reverb=20), TREATED)
    assert breaches(Amounts, table, plain_plan(without=["bass"])) == []
    assert breaches(Keys, table, plain_plan(without=["bass"])) == []


def test_another_amount_than_wanted() -> None:
    other = plain_plan(strips={"dock/IN 1": _strip(reverb=30)})
    assert breaches(Amounts, dock_and_reef(_treat(reverb=20)), other) == ["dock/IN 1 has reverb 30, bass wants 20"]


def test_two_amounts_on_one_strip() -> None:
    table = dock_and_reef(_treat("bass", reverb=20), _treat("arp", reverb=40))
    shared = plain_plan([LEFT, NOTES], strips={"dock/IN 1": _strip(reverb=20)})
    assert breaches(Amounts, table, shared) == ["dock/IN 1 has reverb 20, arp wants 40"]


def test_a_part_that_says_nothing_shares_any_strip() -> None:
    shared = plain_plan([LEFT, NOTES], strips={"dock/IN 1": _strip(reverb=20)})
    assert breaches(Amounts, dock_and_reef(_treat(reverb=20)), shared) == []


def test_an_amount_of_zero_means_never_anywhere() -> None:
    table = dock_and_reef(_treat("bass", reverb=0), _treat("arp", reverb=40))
    assert breaches(Amounts, table, plain_plan(strips={"dock/IN 2": _strip(reverb=40)})) == []
    shared = plain_plan([LEFT, NOTES], strips={"dock/IN 1": _strip(reverb=40)})
    assert breaches(Amounts, table, shared) == ["dock/IN 1 has reverb 40, bass wants 0"]


def test_an_amount_twice_on_the_way() -> None:
    table = dock_and_reef(_treat(reverb=20), reef=WET_REEF)
    twice = plain_plan(strips={"dock/IN 1": _strip(reverb=20)}, engines={"reef/1": _engine(reverb=20)})
    assert breaches(Amounts, table, twice) == ["bass gets reverb at reef/1 and dock/IN 1, it wants 20 once"]


def test_an_amount_at_one_box() -> None:
    there = plain_plan(strips={"dock/IN 1": _strip(reverb=20)})
    here = plain_plan(engines={"reef/1": _engine(reverb=20)})
    at_dock = dock_and_reef(_treat(reverb=20, at="dock"), reef=WET_REEF)
    assert breaches(Amounts, at_dock, there) == []
    assert breaches(Amounts, at_dock, here) == ["reef/1 has reverb 20, bass wants it at dock"]
    at_reef = dock_and_reef(_treat(reverb=20, at="reef"), reef=WET_REEF)
    assert breaches(Amounts, at_reef, here) == []


def test_the_same_wish_twice_holds_twice() -> None:
    right = plain_plan(strips={"dock/IN 1": _strip(reverb=20)})
    assert breaches(Amounts, dock_and_reef(_treat(reverb=20), _treat(reverb=20)), right) == []
    assert breaches(Amounts, dock_and_reef(_treat(reverb=20), _treat(reverb=25)), right) == [
        "dock/IN 1 has reverb 20, bass wants 25"
    ]


def test_an_amount_that_nobody_wants() -> None:
    unused = plain_plan(strips={"dock/IN 2": _strip(reverb=20)}, engines={"dock/PAD": _engine(reverb=5)})
    assert breaches(Amounts, dock_and_reef(_treat(reverb=0)), unused) == [
        "dock/PAD has reverb 5, no part there wants reverb",
        "dock/IN 2 has reverb 20, no part there wants reverb",
    ]


def test_an_amount_where_the_effect_is_not_offered() -> None:
    dock = desk(strip=[named("IN 1", from_="LINE/left", offers=["ducking"]), named("IN 2", from_="LINE/right")])
    table = dock_and_reef(_treat(reverb=20), dock=dock)
    assert breaches(Amounts, table, plain_plan(strips={"dock/IN 1": _strip(reverb=20)})) == [
        "dock/IN 1 has reverb 20, it does not offer reverb"
    ]


def test_what_a_dead_end_does_is_not_heard() -> None:
    dock = desk(
        out=[named("MAIN", left="OUT L", right="OUT R"), named("CUE", mono="CUE")],
        strip=[
            named("IN 1", from_="LINE/left", offers=["reverb"]),
            named("IN 2", from_="LINE/left", offers=["reverb"], to=["CUE"]),
        ],
    )
    table = dock_and_reef(_treat(reverb=20), dock=dock)
    nowhere = {"dock/IN 2": {"outlet": "CUE", "settings": {"reverb": 20}}}
    assert breaches(Amounts, table, plain_plan(strips=nowhere)) == [
        "dock/IN 2 has reverb 20, bass goes nowhere from there",
    ]
    assert breaches(Amounts, table, plain_plan(strips=nowhere | {"dock/IN 1": _strip(reverb=20)})) == [
        "dock/IN 2 has reverb 20, bass goes nowhere from there",
        "bass gets reverb at dock/IN 1 and dock/IN 2, it wants 20 once",
    ]


def test_the_pair_of_a_stereo_part_counts_once() -> None:
    stereo = {"stereo": ["bass"]}
    wide = {"bass": BASS | {"pan": "centre"}}
    table = dock_and_reef(stereo, _treat(reverb=20), parts=("bass",))
    pair = {"dock/IN 1": _strip(reverb=20), "dock/IN 2": _strip(reverb=20)}
    assert breaches(Amounts, table, plan(wide, [LEFT, RIGHT, NOTES], strips=pair)) == []
    mono = dock_and_reef(_treat(reverb=20), parts=("bass",))
    assert breaches(Amounts, mono, plan(wide, [LEFT, RIGHT, NOTES], strips=pair)) == [
        "bass gets reverb at dock/IN 1 and dock/IN 2, it wants 20 once"
    ]


def test_two_stereo_strips_of_a_stereo_part_count_twice() -> None:
    strips = [named(name, from_="LINE", offers=["reverb"]) for name in ("A", "B")]
    table = dock_and_reef({"stereo": ["bass"]}, _treat(reverb=20), parts=("bass",), dock=desk(strip=strips))
    wide = {"bass": BASS | {"pan": "centre"}}
    both = {"dock/A": _strip(reverb=20), "dock/B": _strip(reverb=20)}
    assert breaches(Amounts, table, plan(wide, [LEFT, RIGHT, NOTES], strips=both)) == [
        "bass gets reverb at dock/A and dock/B, it wants 20 once"
    ]


def test_an_amount_in_a_cascade() -> None:
    pool = box(
        "Pool",
        out=[named("MAIN", mono="OUT")],
        in_=[named("LINE", mono="IN")],
        strip=[named("IN", from_="LINE", offers=["reverb"])],
    )
    cables = [cable("6.35 mono", "reef/L/MONO", "pool/IN"), cable("6.35 mono", "pool/OUT", "dock/IN 1"), NOTES]
    table = jam({"dock": desk(), "pool": pool, "reef": module()}, ("bass",), _treat(reverb=20))
    for name in ("pool/IN", "dock/IN 1"):
        assert breaches(Amounts, table, plan({"bass": BASS}, cables, strips={name: _strip(reverb=20)})) == []
    both = {name: _strip(reverb=20) for name in ("pool/IN", "dock/IN 1")}
    assert breaches(Amounts, table, plan({"bass": BASS}, cables, strips=both)) == [
        "bass gets reverb at dock/IN 1 and pool/IN, it wants 20 once"
    ]


DUCKED = {"dock/IN 1": _strip("kick", ducking=30)}
TREATED = _treat(key="kick", ducking=30)


def test_ducking_with_its_key() -> None:
    assert breaches(Keys, dock_and_reef(TREATED), plain_plan(strips=DUCKED)) == []
    assert breaches(Amounts, dock_and_reef(TREATED), plain_plan(strips=DUCKED)) == []


def test_ducking_without_a_key() -> None:
    assert breaches(Keys, dock_and_reef(TREATED), plain_plan(strips={"dock/IN 1": _strip(ducking=30)})) == [
        "dock/IN 1 has ducking 30 and no key",
        "no part triggers the ducking of bass at dock/IN 1, bass wants kick",
    ]


def test_a_key_without_any_amount() -> None:
    assert breaches(Keys, dock_and_reef(), plain_plan(strips={"dock/IN 1": _strip("kick")})) == [
        "dock/IN 1 has kick as its key and no ducking"
    ]


def test_a_key_without_ducking() -> None:
    assert breaches(Keys, dock_and_reef(), plain_plan(strips={"dock/IN 1": _strip("kick", reverb=5)})) == [
        "dock/IN 1 has kick as its key and no ducking"
    ]


@pytest.mark.parametrize("key", ["nobody", "kick"])
def test_a_key_that_is_no_part_of_the_plan(key: str) -> None:
    ducked = plain_plan(strips={"dock/IN 1": _strip(key, ducking=30)}, without=["kick"])
    assert f"dock/IN 1 has {key} as its key, no such part is in the plan" in breaches(
        Keys, dock_and_reef(TREATED), ducked
    )


def test_a_key_on_an_engine_that_cannot_trigger_it() -> None:
    two_pads = [named("PAD", channels=[]), named("TOM", channels=[])]
    table = dock_and_reef(TREATED, dock=desk(engine=two_pads))
    on_tom = plain_plan(strips=DUCKED, kick=lives("dock/TOM", "dock/PADS", None))
    assert breaches(Keys, table, on_tom) == ["dock/IN 1 has kick on dock/TOM as its key, dock/PAD can trigger it"]


def test_a_key_in_another_box() -> None:
    reef = module(engine=[named("1", channel=1), named("PAD", channel=2)])
    table = dock_and_reef(TREATED, reef=reef)
    away = plain_plan(strips=DUCKED, kick=lives("reef/PAD", "dock/PADS", 2), without=["arp"])
    assert breaches(Keys, table, away) == ["dock/IN 1 has kick on reef/PAD as its key, dock/PAD can trigger it"]


def test_one_key_a_strip() -> None:
    pads = [named("PAD", channels=[]), named("TOM", channels=[])]
    strips = [named("IN 1", from_="LINE/left", offers=["ducking"], key=["PAD", "TOM"])]
    table = dock_and_reef(
        TREATED,
        _treat("arp", key="tom", ducking=30),
        dock=desk(engine=pads, strip=strips),
        parts=("kick", "tom", "bass", "arp"),
    )
    parts = plain_plan().parts | {"tom": lives("dock/TOM", "dock/PADS", None)}
    shared = plan({name: dict(part) for name, part in parts.items()}, [LEFT, NOTES], strips=DUCKED)
    assert breaches(Keys, table, shared) == ["kick triggers the ducking of arp at dock/IN 1, arp wants tom"]
