"""The rules of what is heard."""

import pytest

from solver.gear.box import Box
from solver.rules.hearing import Heard, KeepsSides
from tests.building import (
    BASS,
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

PANNED = {"dock/IN 1": {"outlet": "MAIN", "pan": "left"}, "dock/IN 2": {"outlet": "MAIN", "pan": "right"}}
WIDE = {"pan": "centre"}


def test_every_part_is_heard_on_both_sides() -> None:
    assert breaches(Heard, dock_and_reef(), plain_plan()) == []


def test_a_part_that_the_plan_leaves_out() -> None:
    assert breaches(Heard, dock_and_reef(), plain_plan(without=["arp"])) == ["arp is not in the plan"]


def test_a_part_without_a_cable() -> None:
    assert breaches(Heard, dock_and_reef(), plain_plan([LEFT, NOTES])) == []
    own = module(out=[named("MAIN", left="L/MONO", right="R")])
    assert breaches(Heard, dock_and_reef(reef=own), plain_plan([LEFT, NOTES])) == ["arp does not reach dock/MAIN"]


@pytest.mark.parametrize(
    "wrong",
    [
        cable("6.35 mono", "dock/IN 2", "reef/R"),
        cable("6.35 mono", "reef/R", "dock/OUT R"),
        cable("6.35 stereo", "reef/R", ("dock/IN 1", "dock/IN 2")),
    ],
)
def test_a_cable_the_wrong_way_round_or_on_the_wrong_jacks_carries_nothing(wrong: dict[str, object]) -> None:
    assert "arp does not reach dock/MAIN" in breaches(Heard, dock_and_reef(), plain_plan([LEFT, wrong, NOTES]))


def test_a_strip_that_stands_at_another_outlet() -> None:
    outs = [named("CUE", mono="CUE"), named("MAIN", left="OUT L", right="OUT R")]
    dock = desk(out=outs, strip=[named("IN 1", from_="LINE/left"), named("IN 2", from_="LINE/right", to=["MAIN"])])
    kick = lives("dock/PAD", "dock/PADS", None, outlet="CUE")
    table = dock_and_reef(dock=dock, listen="dock/MAIN", parts=("bass", "arp"))
    assert breaches(Heard, table, plain_plan(kick=kick)) == ["bass does not reach dock/MAIN"]


def test_a_mono_part_on_one_side_only() -> None:
    half = plain_plan(strips={"dock/IN 1": {"outlet": "MAIN", "pan": "left"}})
    said = "bass reaches dock/MAIN on the left only, a mono part is on both sides alike"
    assert breaches(Heard, dock_and_reef(), half) == [said]


def test_mono_mains_are_summed() -> None:
    half = plain_plan(strips=PANNED)
    assert breaches(Heard, dock_and_reef(mains="mono"), half) == []


def test_a_mono_outlet_to_listen_to() -> None:
    dock = desk(out=[named("MAIN", mono="OUT")])
    half = plain_plan(strips=PANNED)
    assert breaches(Heard, dock_and_reef(dock=dock), half) == []


def test_the_jacks_you_listen_to_are_taken() -> None:
    sink = box("Sink", in_=[named("LINE", mono="IN")], out=[named("OUT", mono="OUT")])
    table = jam({"dock": desk(), "reef": module(), "sink": sink}, ("kick", "bass", "arp"))
    used = plain_plan([LEFT, RIGHT, NOTES, cable("6.35 mono", "dock/OUT R", "sink/IN")])
    assert breaches(Heard, table, used) == [
        "the 6.35 mono cable from dock/OUT R to sink/IN uses dock/OUT R, where you listen"
    ]


def test_a_port_named_like_a_jack_you_listen_to_is_free() -> None:
    table = dock_and_reef(dock=desk(midi=[named("OUT L", way="out")]))
    assert breaches(Heard, table, plain_plan([LEFT, RIGHT, cable("din", "dock/OUT L", "reef/MIDI IN")])) == []


def test_the_left_jack_alone_plays_no_role_where_you_listen() -> None:
    dock = desk(out=[named("MAIN", left="OUT L", right="OUT R", alone="sum")])
    half = plain_plan(strips={"dock/IN 1": {"outlet": "MAIN", "pan": "right"}})
    said = "bass reaches dock/MAIN on the right only, a mono part is on both sides alike"
    assert breaches(Heard, dock_and_reef(dock=dock), half) == [said]


def test_sound_cascades_through_a_box() -> None:
    between = box(
        "Between",
        out=[named("MAIN", left="L", right="R", alone="sum")],
        in_=[named("LINE", mono="IN")],
        strip=[named("IN", from_="LINE")],
    )
    table = jam({"dock": desk(), "pool": between, "reef": module()}, ("bass",))
    cables = [cable("6.35 mono", "reef/L/MONO", "pool/IN"), cable("6.35 mono", "pool/L", "dock/IN 2"), NOTES]
    assert breaches(Heard, table, plan({"bass": BASS}, cables)) == []
    assert breaches(Heard, table, plan({"bass": BASS}, cables[1:])) == ["bass does not reach dock/MAIN"]
    lost = plan({"bass": BASS}, cables, strips={"pool/IN": {"outlet": "MAIN", "pan": "right"}})
    assert breaches(Heard, table, lost) == []
    without_sum = jam(
        {
            "dock": desk(),
            "pool": between.model_copy(update={"outlets": module(out=[named("MAIN", left="L", right="R")]).outlets}),
            "reef": module(),
        },
        ("bass",),
    )
    assert breaches(Heard, without_sum, lost) == ["bass does not reach dock/MAIN"]


def test_loops_of_sound_end() -> None:
    ring = desk(out=[named("MAIN", left="OUT L", right="OUT R"), named("SEND", mono="SEND")])
    table = dock_and_reef(dock=ring)
    back = cable("6.35 mono", "dock/SEND", "dock/IN 2")
    looped = plain_plan([LEFT, back, NOTES], strips={"dock/IN 2": {"outlet": "SEND"}})
    assert breaches(Heard, table, looped) == []


@pytest.mark.parametrize(
    ("outlet", "jack", "heard"),
    [
        (named("PHONES", left="P L", right="P R", mirrors="MAIN"), "P L", True),
        (named("PHONES", left="P L", right="P R", mirrors="MAIN"), "P R", False),
        (named("PHONES", mono="P", mirrors="MAIN"), "P", True),
    ],
)
def test_an_outlet_that_mirrors_another_carries_the_same_side_by_side(
    outlet: dict[str, object], jack: str, heard: bool
) -> None:
    reef = module(out=[named("MAIN", left="L/MONO", right="R"), outlet])
    table = dock_and_reef(reef=reef, parts=("kick", "bass"))
    carried = plain_plan([cable("6.35 mono", f"reef/{jack}", "dock/IN 1"), NOTES])
    assert breaches(Heard, table, carried) == ([] if heard else ["bass does not reach dock/MAIN"])


def test_a_stereo_outlet_has_what_a_mono_outlet_carries_on_both_sides() -> None:
    reef = module(out=[named("MAIN", mono="OUT"), named("PHONES", left="P L", right="P R", mirrors="MAIN")])
    for jack in ("P L", "P R"):
        carried = plain_plan([cable("6.35 mono", f"reef/{jack}", "dock/IN 1"), NOTES])
        assert breaches(Heard, dock_and_reef(reef=reef, parts=("kick", "bass")), carried) == []


def _stereo_strip() -> Box:
    return desk(strip=[named("IN", from_="LINE")])


def test_a_stereo_part_keeps_its_sides_over_a_pair_of_strips() -> None:
    table = dock_and_reef({"stereo": ["bass"]}, parts=("bass",))
    wide = plan({"bass": BASS | WIDE}, [LEFT, RIGHT, NOTES], strips=PANNED)
    assert breaches(KeepsSides, table, wide) == []
    assert breaches(Heard, table, wide) == []


def test_a_stereo_part_keeps_its_sides_over_a_stereo_strip() -> None:
    table = dock_and_reef({"stereo": ["bass"]}, parts=("bass",), dock=_stereo_strip())
    assert breaches(KeepsSides, table, plan({"bass": BASS | WIDE}, [LEFT, RIGHT, NOTES])) == []


def test_a_stereo_part_inside_the_box_you_listen_to() -> None:
    table = dock_and_reef({"stereo": ["kick"]}, parts=("kick",))
    inside = lives("dock/PAD", "dock/PADS", None)
    assert breaches(KeepsSides, table, plan({"kick": inside})) == []


def test_a_stereo_part_with_its_sides_swapped() -> None:
    table = dock_and_reef({"stereo": ["bass"]}, parts=("bass",), dock=_stereo_strip(), mains="mono")
    swapped = [cable("6.35 mono", "reef/L/MONO", "dock/IN 2"), cable("6.35 mono", "reef/R", "dock/IN 1")]
    assert breaches(KeepsSides, table, plan({"bass": BASS | WIDE}, [*swapped, NOTES])) == [
        "the left of dock/MAIN carries the right of bass, it should carry its left",
        "the right of dock/MAIN carries the left of bass, it should carry its right",
    ]


def test_a_stereo_part_mixed_to_both_sides() -> None:
    table = dock_and_reef({"stereo": ["bass"]}, parts=("bass",))
    mixed = plan({"bass": BASS | WIDE}, [LEFT, RIGHT, NOTES], strips={"dock/IN 1": PANNED["dock/IN 1"]})
    assert breaches(KeepsSides, table, mixed) == [
        "the left of dock/MAIN carries the left and right of bass, it should carry its left"
    ]


def test_a_stereo_part_that_loses_a_side() -> None:
    reef = module(out=[named("MAIN", left="L/MONO", right="R")])
    table = dock_and_reef({"stereo": ["bass"]}, parts=("bass",), dock=_stereo_strip(), reef=reef)
    half = plan({"bass": BASS | WIDE}, [LEFT, NOTES])
    assert breaches(KeepsSides, table, half) == [
        "the right of dock/MAIN carries nothing of bass, it should carry its right"
    ]
    assert breaches(Heard, table, half) == []


def test_a_stereo_part_panned_to_one_side() -> None:
    table = dock_and_reef({"stereo": ["bass"]}, parts=("bass",), dock=_stereo_strip())
    assert breaches(KeepsSides, table, plan({"bass": BASS}, [LEFT, RIGHT, NOTES])) == [
        "bass is stereo, its engine reef/1 is panned left",
        "the left of dock/MAIN carries the left and right of bass, it should carry its left",
        "the right of dock/MAIN carries nothing of bass, it should carry its right",
    ]


def test_a_stereo_part_on_a_mono_outlet() -> None:
    reef = module(out=[named("MAIN", mono="OUT")])
    table = dock_and_reef({"stereo": ["bass"]}, parts=("bass",), reef=reef)
    narrow = plan({"bass": BASS | WIDE}, [cable("6.35 mono", "reef/OUT", "dock/IN 1"), NOTES])
    assert breaches(KeepsSides, table, narrow)[0] == "bass is stereo, its outlet reef/MAIN is mono"


def test_a_stereo_part_where_you_listen_to_a_mono_outlet() -> None:
    table = dock_and_reef({"stereo": ["bass"]}, parts=("bass",), dock=desk(out=[named("MAIN", mono="OUT")]))
    assert breaches(KeepsSides, table, plan({"bass": BASS | WIDE}, [LEFT, RIGHT, NOTES])) == [
        "bass is stereo, dock/MAIN is mono"
    ]
