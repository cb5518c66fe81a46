"""The rules of mixer strips."""

from typing import Any

import pytest

from solver.rules.strips import Apart, OneStrip
from tests.building import (
    ARP,
    BASS,
    LEFT,
    NOTES,
    RIGHT,
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

WIDE = BASS | {"pan": "centre"}


def test_a_part_over_one_strip() -> None:
    assert breaches(OneStrip, dock_and_reef(), plain_plan()) == []


def test_a_part_doubled_over_two_strips() -> None:
    assert breaches(OneStrip, dock_and_reef(), plain_plan(bass=WIDE)) == [
        "bass enters dock over dock/IN 1 and dock/IN 2, one strip is allowed"
    ]


def test_a_strip_fed_by_a_copy_counts() -> None:
    dock = desk(in_=[named("LINE", left="IN 1", right="IN 2", alone="copy")])
    reef = module(out=[named("MAIN", left="L/MONO", right="R")])
    table = dock_and_reef(dock=dock, reef=reef, parts=("bass",))
    assert breaches(OneStrip, table, plan({"bass": BASS}, [LEFT, NOTES])) == [
        "bass enters dock over dock/IN 1 and dock/IN 2, one strip is allowed"
    ]


def test_two_strips_on_one_inlet_are_both_entered() -> None:
    strips = [named("A", from_="LINE/left"), named("B", from_="LINE")]
    assert breaches(OneStrip, dock_and_reef(dock=desk(strip=strips), parts=("bass",)), plain_plan()) == [
        "bass enters dock over dock/A and dock/B, one strip is allowed"
    ]


def _stereo(strips: list[dict[str, Any]] | None = None, **keys: Any) -> Any:
    return dock_and_reef({"stereo": ["bass"]}, parts=("bass",), dock=desk(strip=strips) if strips else None, **keys)


def _wide(cables: Any = (LEFT, RIGHT, NOTES), **strips: Any) -> Any:
    return plan({"bass": WIDE}, cables, strips={f"dock/{name.replace('_', ' ')}": s for name, s in strips.items()})


def test_a_stereo_part_over_its_pair_of_strips() -> None:
    assert breaches(OneStrip, _stereo(), _wide()) == []


def test_a_stereo_part_over_one_stereo_strip() -> None:
    assert breaches(OneStrip, _stereo([named("IN", from_="LINE")]), _wide()) == []


def test_a_stereo_part_over_no_strip() -> None:
    assert breaches(OneStrip, _stereo(), _wide([NOTES])) == []


def test_a_stereo_part_over_too_many_or_too_few_strips() -> None:
    shape = "a stereo part takes one stereo strip, or one strip for each side"
    three = [named("A", from_="LINE/left"), named("B", from_="LINE/right"), named("C", from_="LINE")]
    assert breaches(OneStrip, _stereo(three), _wide()) == [f"bass enters dock/A, dock/B and dock/C: {shape}"]
    assert breaches(OneStrip, _stereo(three[:1]), _wide()) == [f"bass enters dock/A: {shape}"]
    mixed = [three[0], three[2]]
    assert breaches(OneStrip, _stereo(mixed), _wide()) == [f"bass enters dock/A and dock/C: {shape}"]
    doubled = [named("A", from_="LINE"), named("B", from_="LINE")]
    assert breaches(OneStrip, _stereo(doubled), _wide()) == [f"bass enters dock/A and dock/B: {shape}"]


def test_a_stereo_part_with_both_sides_on_each_strip() -> None:
    reef = module(out=[named("MAIN", mono="OUT"), named("SEND", mono="SEND", mirrors="MAIN")])
    doubled = [cable("6.35 mono", "reef/OUT", "dock/IN 1"), cable("6.35 mono", "reef/SEND", "dock/IN 2"), NOTES]
    assert breaches(OneStrip, _stereo(reef=reef), _wide(doubled)) == [
        "bass enters with the left and right over dock/IN 1 and the left and right over dock/IN 2: "
        "one strip takes the left, the other the right"
    ]


def test_the_pair_of_a_stereo_part_is_set_alike() -> None:
    settings = {"outlet": "MAIN", "settings": {"reverb": 20, "ducking": 30}, "key": "kick"}
    assert breaches(OneStrip, _stereo(), _wide(IN_1=settings, IN_2=settings)) == []
    dry = settings | {"settings": {"reverb": 0, "ducking": 30}}
    assert breaches(OneStrip, _stereo(), _wide(IN_1=settings, IN_2=dry)) == [
        "dock/IN 1 has reverb 20 and dock/IN 2 has 0, the two sides of bass are set alike"
    ]
    assert breaches(OneStrip, _stereo(), _wide(IN_1={"outlet": "MAIN"}, IN_2=settings)) == [
        "dock/IN 1 has reverb 0 and dock/IN 2 has 20, the two sides of bass are set alike",
        "dock/IN 1 has ducking 0 and dock/IN 2 has 30, the two sides of bass are set alike",
        "dock/IN 1 has no part as its key and dock/IN 2 has kick, the two sides of bass are set alike",
    ]
    other = settings | {"key": "clap"}
    assert breaches(OneStrip, _stereo(), _wide(IN_1=settings, IN_2=other)) == [
        "dock/IN 1 has kick as its key and dock/IN 2 has clap, the two sides of bass are set alike"
    ]


SEPARATE = {"separate": ["bass", "arp"]}


def test_separate_parts_on_strips_of_their_own() -> None:
    assert breaches(Apart, dock_and_reef(SEPARATE), plain_plan()) == []


def test_separate_parts_on_one_strip() -> None:
    assert breaches(Apart, dock_and_reef(SEPARATE), plain_plan([LEFT, NOTES])) == [
        "bass and arp enter dock/IN 1 together, they should be separate"
    ]


def test_parts_that_nobody_separates_may_share_a_strip() -> None:
    assert breaches(Apart, dock_and_reef({"separate": ["bass", "kick"]}), plain_plan([LEFT, NOTES])) == []


def test_a_separate_part_that_passes_no_strip() -> None:
    reef = module(out=[named("MAIN", left="L/MONO", right="R")])
    assert breaches(Apart, dock_and_reef(SEPARATE, reef=reef), plain_plan([LEFT, NOTES])) == [
        "arp passes no strip of dock and has no engine there, it should be separate there"
    ]


def test_separate_parts_at_another_box() -> None:
    at_reef = {"separate": ["bass", "arp"], "at": "reef"}
    assert breaches(Apart, dock_and_reef(at_reef), plain_plan([LEFT, NOTES])) == []
    with_kick = {"separate": ["kick", "arp"], "at": "reef"}
    assert breaches(Apart, dock_and_reef(with_kick), plain_plan()) == [
        "kick passes no strip of reef and has no engine there, it should be separate there"
    ]


@pytest.mark.parametrize(("side", "count"), [("left", 1), ("right", 0)])
def test_a_part_inside_and_a_strip_that_feeds_it_back(side: str, count: int) -> None:
    """Two parts on engines of the mixing box are separate, unless a cable brings both to one strip."""
    dock = desk(
        out=[named("MAIN", left="OUT L", right="OUT R"), named("SEND", left="S L", right="S R")],
        engine=[named("PAD", channels=[], to=["MAIN", "SEND"]), named("TOM", channels=[], to=["SEND"])],
    )
    table = dock_and_reef({"separate": ["kick", "tom"]}, dock=dock, parts=("kick", "tom"))
    kick = lives("dock/PAD", "dock/PADS", None, pan=side, outlet="SEND")
    tom = lives("dock/TOM", "dock/PADS", None, pan="left", outlet="SEND")
    sent = plan({"kick": kick, "tom": tom}, [cable("6.35 mono", "dock/S L", "dock/IN 1")])
    said = ["kick and tom enter dock/IN 1 together, they should be separate"]
    assert breaches(Apart, table, sent) == said * count


def test_a_strip_that_leads_nowhere_keeps_nothing_apart() -> None:
    cue = [named("MAIN", left="OUT L", right="OUT R"), named("CUE", mono="CUE")]
    reef = module(
        out=[
            named("MAIN", left="L/MONO", right="R", alone="sum"),
            named("PHONES", left="PH L", right="PH R", mirrors="MAIN"),
        ]
    )
    boxes = {"dock": desk(), "reef": reef, "cove": desk(out=cue)}
    table = jam(boxes, ("kick", "bass", "arp"), {"separate": ["bass", "arp"], "at": "cove"})
    aside = [cable("6.35 mono", "reef/PH L", "cove/IN 1"), cable("6.35 mono", "reef/PH R", "cove/IN 2")]
    assert breaches(Apart, table, plain_plan([LEFT, RIGHT, NOTES, *aside])) == [
        "bass goes nowhere from cove/IN 1, it should be separate in cove",
        "arp goes nowhere from cove/IN 2, it should be separate in cove",
    ]


def test_three_separate_parts_on_one_strip() -> None:
    table = dock_and_reef(
        {"separate": ["bass", "arp", "pad"]},
        parts=("bass", "arp", "pad"),
        reef=module(engine=[named("1"), named("2"), named("3")]),
    )
    all_left = plan({"bass": BASS, "arp": ARP | {"pan": "left"}, "pad": BASS | {"engine": "reef/3"}}, [LEFT, RIGHT])
    assert breaches(Apart, table, all_left) == ["bass, arp and pad enter dock/IN 1 together, they should be separate"]
