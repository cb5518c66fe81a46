"""The rule of sets, where a part of a set may live, and what the plan of a set says of itself."""

from typing import Any

from solver.flow.followed import Followed
from solver.flow.own_words import set_misstated
from solver.flow.settings import settings
from solver.flow.together import together
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.plans import Plan
from solver.rules.stored import SameForAll
from solver.rules.wishes import LivesWhere
from solver.set_plans import SetPlan
from tests.building import ARP, BASS, LEFT, NOTES, RIGHT, desk, dock_and_reef, jam, module, named, plain_plan

KEEPS_CHANNEL = module(
    engine=[named("1", channel=1, stored={"channel": "box"}), named("2", channel=2, stored={"channel": "project"})]
)


def _second(first: Plan, second: Plan) -> list[str]:
    """What the rule of sets says of the second jam; both are alike but for their titles."""
    jams = [dock_and_reef(reef=KEEPS_CHANNEL, title=title) for title in ("First", "Second")]
    return list(SameForAll().breaches(Followed.together(jams, (first, second))[1]))


def test_jams_with_the_same_cables_and_stored_settings() -> None:
    assert _second(plain_plan(), plain_plan()) == []
    moved = plain_plan(arp=ARP | {"channel": 5}, engines={"reef/2": {"channel": 5}})
    assert _second(plain_plan(), moved) == []


def test_a_cable_that_another_jam_has_or_lacks() -> None:
    cable = "the 6.35 mono cable from reef/R to dock/IN 2"
    assert _second(plain_plan(), plain_plan([LEFT, NOTES])) == [f"{cable} is there in First alone"]
    assert _second(plain_plan([LEFT, NOTES]), plain_plan()) == [f"{cable} is not there in First"]


def test_a_setting_that_the_box_stores_for_all() -> None:
    moved = plain_plan(bass=BASS | {"channel": 5}, engines={"reef/1": {"channel": 5}})
    said = "the channel of engine reef/1 is 5, in First it is 1, and reef has one for all"
    assert _second(plain_plan(), moved) == [said]


def test_a_part_on_a_box_that_only_another_jam_uses() -> None:
    small = jam({"dock": desk()}, ("kick", "bass"), title="Small")
    table = JamSet("Set", {"large": dock_and_reef(), "small": small}).jams["small"]
    said = list(LivesWhere().breaches(Followed(table, plain_plan(without=["arp"]))))
    assert said == ["bass lives on reef/1, a box that this jam does not use"]


def _set(*, hands: bool = False) -> tuple[JamSet, SetPlan]:
    """Two jams that have the reverb of one strip at 20 and at 40, and the first engine's stored channel at 5."""
    recall = {"reef": "1"} if hands else {"dock": "1", "reef": "1"}
    jams: dict[str, Jam] = {}
    plans: dict[str, Plan] = {}
    slots: tuple[dict[str, Any], ...] = ({"dock": "1", "reef": "1"}, recall)
    for file, amount, slot in zip(("one", "two"), (20, 40), slots, strict=True):
        jams[file] = dock_and_reef({"treat": ["bass"], "with": {"reverb": amount}}, reef=KEEPS_CHANNEL, recall=slot)
        bare = plain_plan(
            [LEFT, RIGHT, NOTES],
            bass=BASS | {"channel": 5},
            strips={"dock/IN 1": {"outlet": "MAIN", "settings": {"reverb": amount}}},
            engines={"reef/1": {"channel": 5}},
        )
        plans[file] = bare.model_copy(update={"settings": settings(jams[file], bare)})
    asked = JamSet("Set", jams)
    return asked, together(asked, plans)


def test_a_set_s_plan_that_says_what_is_so() -> None:
    for hands in (True, False):
        asked, plan = _set(hands=hands)
        assert plan.between[0].changes
        assert list(set_misstated(asked, plan)) == []


def test_a_set_s_plan_that_says_what_is_not_so() -> None:
    asked, plan = _set(hands=True)
    assert plan.goals is not None and plan.goals.by_hand == 1
    other_jam = plan.jams | {"two": plan.jams["two"].model_copy(update={"title": "Other"})}
    wrong: dict[str, Any] = {
        "title": "Other",
        "jams": other_jam,
        "goals": plan.goals.model_copy(update={"by_hand": 7}),
        "settings": (),
        "between": (),
    }
    said = {key: list(set_misstated(asked, plan.model_copy(update={key: value}))) for key, value in wrong.items()}
    assert said == {
        "title": ["The plan is written for Other, this set is Set."],
        "jams": ["two: The plan is written for Other, this jam is Test."],
        "goals": ["The plan counts 7 for by_hand of the set, it comes to 1."],
        "settings": ["The plan lists what boxes store under settings, it comes to something else."],
        "between": ["The plan lists what is done between the jams under between, it comes to something else."],
    }
