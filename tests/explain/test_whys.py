"""What a plan's cables, channels, pans and levels come from, and what other plans would cost, as the plans show it."""

from collections.abc import Iterable

import pytest

import solver
from solver.jam.claims import Claim, in_force
from solver.jam.intents import Avoid, Keep, Kept, Shunned, Wish
from solver.jam.jam import Jam
from solver.outcome import Impossible, Planned, Undecided
from solver.plans import Goals, Plan
from solver.reading import read_jam, read_wish
from solver.reasons.conflicts import Conflict
from solver.reasons.explained import Fewer, Instead, fewer, instead
from solver.reasons.trial import Trial
from solver.reasons.whys import Why, whys
from solver.search.clock import Clock
from tests.building import Table, desk, dock_and_reef, module, named
from tests.enumeration.rigs import seeded
from tests.explain.slow import Slow
from tests.showing import SCENARIOS

ON = {"on": "reef"}
BASS: dict[str, Table] = {"bass": ON}
BOTH: dict[str, Table] = {"bass": ON, "arp": ON}
APART = {"separate": ["bass", "arp"]}
OUT, LEFT, NOTES = (
    "the 6.35 mono cable from reef/OUT to dock/IN 1",
    "the 6.35 mono cable from reef/L/MONO to dock/IN 1",
    "the din cable from dock/MIDI OUT to reef/MIDI IN",
)
ONE_LANE = desk(
    track=[named("PADS", channels=[], plays="PAD"), named("EXT 1", channel=1)],
    strip=[named("IN 1", from_="LINE/left"), named("IN 2", from_="LINE/right")],
)


def _best(of: Jam) -> Plan:
    outcome = solver.plan(of, time_limit=None)
    assert isinstance(outcome, Planned)
    return outcome.best


def _goals(of: Jam) -> Goals:
    goals = _best(of).goals
    assert goals is not None
    return goals


def _told(of: Jam) -> dict[str, Why]:
    return {why.what: why for why in whys(of, _best(of), Clock(None))}


def _with(of: Jam, wish: Wish) -> Jam:
    return of.changed(intents=(*of.intents, wish))


def _statements(of: Iterable[Claim]) -> tuple[str, ...]:
    return Conflict(tuple(of), minimal=True).statements


def _jack(name: str) -> Avoid:
    return Avoid(avoid=Shunned(jacks=(name,)))


def _bass(**kept: object) -> Keep:
    return Keep(keep=Kept.model_validate({"part": "bass", **kept}))


def _outlets(first: str, second: str) -> list[Table]:
    """A mono outlet for both engines, and one more for each."""
    return [named("1", channel=1, to=["MAIN", first]), named("2", channel=2, to=["MAIN", second])]


MONOS = [named(name, mono=name if name != "MAIN" else "OUT") for name in ("MAIN", "A", "B")]
APART_JAM = dock_and_reef(APART, parts=BOTH)
AVOIDING = dock_and_reef({"avoid": {"channels": [1, 2]}}, parts=BASS)
FORCED: dict[str, tuple[Jam, str, Wish, tuple[str, ...]]] = {
    "sound": (APART_JAM, LEFT, _jack("reef/L/MONO"), ("part.bass.on", "part.arp.on", "intent.1")),
    "notes": (APART_JAM, NOTES, Avoid(avoid=Shunned(ports=("dock/MIDI OUT",))), ("part.bass.on",)),
    "pan": (APART_JAM, "pan left for bass", _bass(pan="centre"), ("part.bass.on", "part.arp.on", "intent.1")),
    "channel": (AVOIDING, "channel 3 instead of 1 for bass", _bass(channel=1), ("part.bass", "intent.1")),
}


@pytest.mark.parametrize("name", FORCED)
def test_what_is_forced_cannot_be_done_without(name: str) -> None:
    of, what, asked, statements = FORCED[name]
    why = _told(of)[what]
    assert (why.because, _statements(why.claims)) == ("stated", statements)
    assert isinstance(solver.plan(_with(of, asked), time_limit=None), Impossible)
    trial = Trial(of, Clock(None), asked=(asked,))
    assert trial.fails(why.claims)
    assert not any(trial.fails([other for other in why.claims if other != claim]) for claim in why.claims)
    assert not Trial(of, Clock(None)).fails(why.claims)


def test_a_cable_is_needed_for_the_fewest() -> None:
    """Both parts leave by one outlet; without it, each has another one of its own."""
    of = dock_and_reef(parts=BOTH, reef=module(out=MONOS, engine=_outlets("A", "B")))
    why = _told(of)[OUT]
    assert (why.because, _statements(why.claims)) == ("cables", ("part.bass.on", "part.arp.on"))
    assert _goals(_with(of, _jack("reef/OUT"))).cables == _goals(of).cables + 1


@pytest.mark.parametrize(("parts", "more"), [(BASS, 1), (BOTH, 2)])
def test_a_cable_is_chosen_for_the_fewest_settings(parts: dict[str, Table], more: int) -> None:
    """Without the outlet on which they stand, so many parts move to another one."""
    of = dock_and_reef(parts=parts, reef=module(out=MONOS, engine=_outlets("A", "A")))
    why = _told(of)[OUT]
    assert (why.because, why.more, why.claims) == ("settings", more, ())
    before, after = _goals(of), _goals(_with(of, _jack("reef/OUT")))
    assert (after.cables, after.settings_moved) == (before.cables, before.settings_moved + more)


def test_a_channel_is_chosen_for_the_fewest_settings() -> None:
    """Bass and its lane leave channel 1, where three other engines would have to move."""
    four = module(engine=[named(str(n), channel=1) for n in range(1, 5)])
    of = dock_and_reef(parts=BASS, dock=ONE_LANE, reef=four)
    why = _told(of)["channel 2 instead of 1 for bass"]
    assert (why.because, why.more) == ("settings", 1)
    assert _goals(_with(of, _bass(channel=1))).settings_moved == _goals(of).settings_moved + 1


def test_a_choice_is_free() -> None:
    mirrored = module(out=[named("MAIN", mono="OUT"), named("MORE", mono="P", mirrors="MAIN")])
    of = dock_and_reef(parts=BASS, reef=mirrored)
    assert _told(of)[OUT][1:5] == ("tidy", (), 0, "")
    assert _goals(_with(of, _jack("reef/OUT"))) == _goals(of)
    # The arp stays right; the bass goes left, or to another outlet: one setting either way.
    outs = [named("MAIN", left="L", right="R"), named("A", mono="A")]
    engines = [named("1", channel=1, to=["MAIN", "A"]), named("2", channel=2)]
    kept = {"keep": {"part": "arp", "pan": "right"}}
    places = {"bass": {"on": "reef/1"}, "arp": {"on": "reef/2"}}
    of = dock_and_reef(APART, kept, parts=places, reef=module(out=outs, engine=engines))
    assert _told(of)["pan left for bass"][1:5] == ("tidy", (), 0, "")
    assert _told(of)["pan right for arp"].because == "stated"
    three = module(engine=[named(str(n), channel=1) for n in range(1, 4)])
    of = dock_and_reef(parts=BASS, dock=ONE_LANE, reef=three)
    stays = _goals(_with(of, _bass(channel=1)))
    assert stays == _goals(of)
    assert {why.because for what, why in _told(of).items() if what.startswith("channel")} <= {"tidy"}


def test_engines_make_way_for_notes() -> None:
    fixed = {"1": [5], "2": [5], "4": [5, 6]}
    engines = [named(name, channels=channels) for name, channels in fixed.items()]
    engines += [named("3", channel=5, can_be_off=True), named("5", channel=7)]
    of = dock_and_reef(parts={"bass": {"on": "reef/1"}}, reef=module(engine=engines))
    told = {what: why[1:5] for what, why in _told(of).items() if what.startswith("reef/")}
    empty = ("notes", (), 0, "it has no part, and would sound for bass where it stands")
    assert told == {
        "reef/2 at level zero": empty,
        "reef/4 on channel 6 instead of 5": empty,
        "reef/3 off instead of 5": empty,
    }
    low_tide = _told(read_jam(SCENARIOS / "low-tide.toml"))
    assert low_tide["barge/3 on channel 2 instead of 1"].says == "it holds arp, and tiller/EXT 2 sends there"
    assert low_tide["barge/4 on channel 3 instead of 1"].says == empty[3].replace("bass", "bass and pad")


def test_an_engine_that_would_be_turned_down_is_no_fewer_settings() -> None:
    """On channel 1 the other engine, which cannot move, would be at level zero: that costs more than settings do."""
    engines = [named("1", channel=1), named("2", channels=[1])]
    of = dock_and_reef(parts={"bass": {"on": "reef/1"}}, dock=ONE_LANE, reef=module(engine=engines))
    stays = _goals(_with(of, _bass(channel=1)))
    assert (_goals(of).silenced, stays.silenced) == (0, 1)
    why = _told(of)["channel 2 instead of 1 for bass"]
    assert why.because not in ("settings", "tidy") or why.more > 0


@pytest.mark.parametrize("seed", [302, 304, 306, 319, 322, 325, 335, 341, 363, 366, 387, 389, 405, 406, 410, 438])
def test_fewer_cables_would_not_do_for_just_these_lines(seed: int) -> None:
    """Every plain jam that the lines can mean is planned."""
    of = seeded(seed)
    found = fewer(of, None)
    assert isinstance(found, Fewer) and found.conflict is not None and found.conflict.minimal
    slow, most = Slow(of), len(found.planned.best.cables) - 1

    def do(claims: frozenset[Claim]) -> bool:
        plans = (solver.plan(plain, time_limit=None) for plain in slow.readings(claims))
        return any(isinstance(plan, Planned) and len(plan.best.cables) <= most for plan in plans)

    claims = frozenset(found.conflict.claims)
    assert in_force(claims) == claims
    assert not do(claims)
    assert all(do(in_force(claims - {claim})) for claim in claims)


def _instead(wish: str) -> Instead:
    of = read_jam(SCENARIOS / "low-tide.toml")
    found = instead(of, read_wish(wish, of, "--why-not"), None)
    assert isinstance(found, Instead)
    assert found.before.best == _best(of)
    return found


@pytest.mark.parametrize(
    ("wish", "moved"),
    [
        ('keep = { part = "arp", channel = 1 }', 6),
        ("avoid = { channels = [1] }", 6),
        ('keep = { part = "bass", pan = "right" }', 5),
        ('keep = { part = "bass", pan = "left" }', 5),
    ],
)
def test_another_wish_is_possible(wish: str, moved: int) -> None:
    found = _instead(wish)
    assert found.clash is None and found.after is not None
    assert found.after.best == _best(found.jam)
    assert found.after.best.goals is not None and found.after.best.goals.settings_moved == moved
    assert (found.after.best == found.before.best) == ("left" in wish)
    assert solver.check(found.jam, found.after.best) == ()


@pytest.mark.parametrize(
    "wish", ['keep = { part = "bass", engine = "tiller/PAD 2" }', 'avoid = { jacks = ["barge/R", "barge/L/MONO"] }']
)
def test_another_wish_is_impossible(wish: str) -> None:
    found = _instead(wish)
    of, asked = read_jam(SCENARIOS / "low-tide.toml"), found.jam.intents[-1]
    assert found.after is None and found.clash is not None
    claims = found.clash.conflict.claims
    with_it, without = Trial(of, Clock(None), asked=(asked,)), Trial(of, Clock(None))
    assert found.clash.conflict.minimal
    assert with_it.fails(claims) and not without.fails(claims)
    assert not any(with_it.fails([other for other in claims if other != claim]) for claim in claims)
    assert isinstance(solver.plan(found.jam, time_limit=None), Impossible)


def test_nothing_is_decided_when_the_time_is_up() -> None:
    of = APART_JAM
    told = list(whys(of, _best(of), Clock(0)))
    assert {why.because for why in told} == {"time"}
    assert not any(why.claims for why in told)
    assert isinstance(fewer(of, 0), Undecided)
    assert isinstance(instead(of, _jack("reef/R"), 0), Undecided)
    assert isinstance(solver.explain(of, time_limit=0), Undecided)
    assert isinstance(fewer(dock_and_reef(APART, {"stereo": ["bass"]}, parts=BOTH), None), Impossible)
