"""The rule of the clock."""

import pytest

from solver.rules.clock import ClockReaches
from tests.building import LEFT, NOTES, RIGHT, box, breaches, cable, desk, dock_and_reef, jam, module, named, plain_plan

CLOCK = {"clock": ["reef"]}
MISSED = ["the clock of dock does not reach reef"]


def test_the_clock_goes_over_a_cable_with_clock_at_both_ends() -> None:
    assert breaches(ClockReaches, dock_and_reef(CLOCK), plain_plan()) == []


def test_the_leader_has_its_own_clock() -> None:
    assert breaches(ClockReaches, dock_and_reef({"clock": ["dock"]}), plain_plan()) == []


def test_no_cable_no_clock() -> None:
    assert breaches(ClockReaches, dock_and_reef(CLOCK), plain_plan([LEFT, RIGHT])) == MISSED
    assert breaches(ClockReaches, dock_and_reef(), plain_plan([LEFT, RIGHT])) == []


@pytest.mark.parametrize(("out", "into"), [(False, True), (True, False)])
def test_a_port_without_clock(out: bool, into: bool) -> None:
    dock = desk(midi=[named("MIDI OUT", way="out", clock=out)])
    reef = module(midi=[named("MIDI IN", way="in", clock=into)])
    assert breaches(ClockReaches, dock_and_reef(CLOCK, dock=dock, reef=reef), plain_plan()) == MISSED


def test_the_clock_comes_from_the_leader_and_no_other_box() -> None:
    dock = desk(midi=[named("MIDI IN", way="in", clock=True)])
    reef = module(midi=[named("MIDI OUT", way="out", clock=True), named("MIDI IN", way="in", clock=True)])
    back = cable("din", "reef/MIDI OUT", "dock/MIDI IN")
    assert breaches(ClockReaches, dock_and_reef(CLOCK, dock=dock, reef=reef), plain_plan([back])) == MISSED


@pytest.mark.parametrize(
    ("onward", "reaches"),
    [
        (named("ON", way="thru", copies="IN", clock=True), True),
        (named("ON", way="thru", copies="IN", clock=False), False),
        (named("ON", way="out", repeats="IN", clock=True), True),
        (named("ON", way="out", clock=True), False),
    ],
)
def test_the_clock_passes_a_box(onward: dict[str, object], reaches: bool) -> None:
    pool = box("Pool", midi=[named("IN", way="in", clock=True), onward])
    table = jam({"dock": desk(), "pool": pool, "reef": module()}, ("kick", "bass", "arp"), CLOCK)
    leads = [cable("din", "dock/MIDI OUT", "pool/IN"), cable("din", "pool/ON", "reef/MIDI IN")]
    assert breaches(ClockReaches, table, plain_plan([LEFT, RIGHT, *leads])) == ([] if reaches else MISSED)


def test_the_clock_of_a_plain_lead_stays_with_its_box() -> None:
    pool = box("Pool", midi=[named("IN", way="in", clock=True), named("ON", way="out", clock=True)])
    table = jam({"dock": desk(), "pool": pool, "reef": module()}, ("kick", "bass", "arp"), {"clock": ["pool"]})
    assert breaches(ClockReaches, table, plain_plan([NOTES])) == ["the clock of dock does not reach pool"]
