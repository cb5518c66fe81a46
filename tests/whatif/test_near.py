"""The plan after a change stays near the plan in use: fewest cables, then fewest plugs moved, then fewest settings.

Every set of as few cables is tried: each is planned with all its cables kept, and its plugs are counted by trying every
way in which old cables may become new ones.
"""

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import combinations, permutations

import pytest

import solver
from solver.flow.settings import goals_of
from solver.gear.cables import KINDS
from solver.gear.rig import Rig
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Cable, Plan
from solver.search.alike import Table, nothing_tied, table
from solver.search.model import Model
from solver.search.wires import Wires
from solver.whatif.compared import WhatIf
from solver.whatif.difference import Difference, Side, difference
from tests.building import box, cable, jam, named, plan
from tests.whatif.pairs import SEEDS, Pair, pair

MOST_WIRINGS = 1000


@cache
def _what_if(seed: int, *, fresh: bool = False) -> WhatIf:
    of = pair(seed)
    return solver.what_if(of.before, of.after, against=of.used, fresh=fresh, time_limit=None)


def _after(found: WhatIf) -> Plan:
    assert isinstance(found.has, Planned)
    return found.has.best


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_staying_near_never_costs_a_cable(seed: int) -> None:
    of = pair(seed)
    near, free = _what_if(seed), _what_if(seed, fresh=True)
    assert len(_after(near).cables) == len(_after(free).cables)
    assert near.difference is not None and free.difference is not None
    assert near.difference.plugs <= free.difference.plugs
    assert solver.check(of.after, _after(near)) == ()
    saved = _rest(_after(free)) < _rest(_after(near))
    assert saved == (near.fresh is not None)
    if saved:
        assert not _after(near).proof["settings_moved"] and _after(near).status == "found"


def _rest(of: Plan) -> tuple[int, int]:
    cost = goals_of(of)
    return cost.silenced, cost.settings_moved


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_no_other_wiring_moves_fewer_plugs(seed: int) -> None:
    of = pair(seed)
    found = _what_if(seed)
    new = _after(found)
    assert found.difference is not None
    moved = plugs_moved(of.used.cables, new.cables)
    assert found.difference.plugs == moved
    wirings = list(_wirings(of.after, len(new.cables)))
    if len(wirings) > MOST_WIRINGS:
        pytest.skip(f"{len(wirings)} wirings are too many to try")
    for wiring in wirings:
        plugs = plugs_moved(of.used.cables, wiring)
        if plugs > moved:
            continue
        other = _planned_with(of.after, wiring)
        if other is not None and len(other.cables) == len(wiring):
            assert plugs == moved, wiring
            if not table([of.after], nothing_tied).shelves:  # what is alike is counted once there
                assert _changes(of, other) >= _changes(of, new), wiring


def _changes(of: Pair, new: Plan) -> int:
    """What is not as in the plan in use: of parts, of what treats them, and engines out of the way."""
    count = 0
    for name, was in of.used.parts.items():
        now = new.parts.get(name)
        if now is not None:
            count += (was.engine != now.engine) + (was.track != now.track) + (was.channel != now.channel)
            home = was.engine.partition("/")[0] == now.engine.partition("/")[0]
            count += (was.outlet != now.outlet or not home) + (was.pan != now.pan)
            passed = {(box, one) for box, names in (now.strips or {}).items() for one in names}
            count += sum((box, one) not in passed for box, names in (was.strips or {}).items() for one in names)
    for one, other in ((of.used.strips, new.strips), (of.used.engines, new.engines)):
        for name, thing in one.items():
            then = other.get(name)
            settings = then.settings if then is not None else {}
            count += sum(settings.get(effect) != amount for effect, amount in thing.settings.items())
    had, homes = ({part.engine for part in one.parts.values()} for one in (of.used, new))
    for spot, engine in of.after.rig.engines.items():
        away = [
            str(spot) not in tenants and (set_.channel != engine.stands or set_.level == "zero")
            for tenants, set_ in ((had, of.used.engines.get(str(spot))), (homes, new.engines[str(spot)]))
            if set_ is not None
        ]
        count += away[-1] and away != [True, True]
    return count


def _wirings(of: Jam, count: int) -> Iterator[tuple[Cable, ...]]:
    """Every set of so many cables that fit, no socket twice; breakouts are left to the tests that name them."""
    every = list(_cables(of.rig))
    for some in combinations(every, count):
        plugs = [plug for one in some for plug in (one.source, one.to)]
        if len(set(plugs)) == len(plugs):
            yield some


def _cables(rig: Rig) -> Iterator[Cable]:
    wires = Wires(Table(rig, {}, ()), Model())
    for one in (*wires.audio, *wires.leads):
        yield Cable.model_validate({"kind": one.kind, "from": str(one.start), "to": str(one.end)})


def plugs_moved(old: Sequence[Cable], new: Sequence[Cable]) -> int:
    """Plugs of old cables that leave their socket, in the best of all ways to make new cables of old ones."""
    gone = 0
    for kind in KINDS:
        left, fresh = ([one for one in some if one.kind == kind] for some in (old, new))
        padded = [*fresh, *[None] * max(len(left) - len(fresh), 0)]
        total = sum(len(_plugs(one)) for one in left)
        ways = permutations(padded, len(left))
        gone += total - max(
            sum(_common(one, other) for one, other in zip(left, way, strict=True) if other is not None) for way in ways
        )
    return gone


def _plugs(one: Cable) -> list[str]:
    ends = [one.source, one.to]
    return [plug for end in ends for plug in ([end] if isinstance(end, str) else end)]


def _common(one: Cable, other: Cable) -> int:
    if len(_plugs(one)) == 2:
        return len(set(_plugs(one)) & set(_plugs(other)))
    return sum(a == b for a, b in zip(_plugs(one), _plugs(other), strict=True))


def _planned_with(of: Jam, wiring: Sequence[Cable]) -> Plan | None:
    """The best plan with all these cables."""
    keeps = [{"keep": {"cable": [one.source, one.to]}} for one in wiring]
    data = of.model_dump(by_alias=True, exclude={"boxes"}, exclude_defaults=True)
    kept = Jam.model_validate({**data, "boxes": of.boxes, "intent": [*data.get("intent", ()), *keeps]})
    outcome = solver.plan(kept, time_limit=None)
    return outcome.best if isinstance(outcome, Planned) else None


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_back_again_nothing_differs(seed: int) -> None:
    of = pair(seed)
    back = solver.what_if(of.after, of.before, against=of.best, time_limit=None)
    assert back.difference is not None and back.difference.none
    assert _after(back).parts == of.best.parts and _after(back).settings == of.best.settings


def _mixer(jacks: int) -> Jam:
    """A mixer with strips that are all alike, and two one-voice modules beside it."""
    strips = [named(f"IN {n}", from_=f"LINE {n}") for n in range(1, jacks + 1)]
    inlets = [named(f"LINE {n}", mono=f"LINE {n}") for n in range(1, jacks + 1)]
    desk = box(
        "Desk",
        out=[named("MAIN", left="L", right="R")],
        in_=inlets,
        strip=strips,
        track=[named("1", channel=1), named("2", channel=2)],
        midi=[named("OUT 1", way="out"), named("OUT 2", way="out")],
    )
    voice = box("Voice", out=[named("OUT", mono="OUT")], engine=[named("V")], midi=[named("IN", way="in")])
    parts = {"bass": {"on": "one"}, "lead": {"on": "two"}}
    return jam({"desk": desk, "one": voice, "two": voice}, parts)


def _used(*cables: tuple[str, str]) -> Plan:
    of = _mixer(4)
    found = solver.plan(of)
    assert isinstance(found, Planned)
    kinds = {"OUT": "6.35 mono", "desk": "din"}
    told = [cable(kinds["desk" if start.startswith("desk") else "OUT"], start, end) for start, end in cables]
    return plan({name: part.model_dump() for name, part in found.best.parts.items()}, told)


def test_of_strips_that_are_alike_those_in_use_are_kept() -> None:
    used = _used(
        ("one/OUT", "desk/LINE 4"), ("two/OUT", "desk/LINE 2"), ("desk/OUT 2", "one/IN"), ("desk/OUT 1", "two/IN")
    )
    found = solver.what_if(_mixer(4), _mixer(4), against=used)
    assert found.difference is not None and found.difference.stay == 4 and found.difference.plugs == 0
    assert _after(found).parts["bass"].strips == {"desk": ("IN 4",)}


def test_a_cable_that_must_leave_its_jack_keeps_its_other_plug() -> None:
    used = _used(
        ("one/OUT", "desk/LINE 4"), ("two/OUT", "desk/LINE 2"), ("desk/OUT 2", "one/IN"), ("desk/OUT 1", "two/IN")
    )
    data = {"avoid": {"jacks": ["desk/LINE 4"]}}
    avoiding = Jam.model_validate({**_mixer(4).model_dump(by_alias=True), "intent": [data]})
    found = solver.what_if(_mixer(4), avoiding, against=used)
    assert found.difference is not None and found.difference.stay == 3 and found.difference.plugs == 1
    (move,) = found.difference.moved
    assert (move.old.source, move.old.to, move.new.source) == ("one/OUT", "desk/LINE 4", "one/OUT")


def _differ(old: Plan, new: Plan) -> Difference:
    return difference(Side(_mixer(4), old), Side(_mixer(4), new))


def test_a_freed_socket_keeps_the_plug_of_the_cable_that_goes_on() -> None:
    """The module goes, another comes: the cable stays in the strip and moves at its other end."""
    old, new = _used(("one/OUT", "desk/LINE 3")).cables, _used(("two/OUT", "desk/LINE 3")).cables
    told = _differ(_used(("one/OUT", "desk/LINE 3")), _used(("two/OUT", "desk/LINE 3")))
    assert told.moved == ((old[0], new[0]),) and told.plugs == 1 and not told.pulled and not told.plugged


def test_pairs_are_made_so_that_most_plugs_stay() -> None:
    """The first old cable could become either new one, the second only the first: both find one."""
    old = _used(("one/OUT", "desk/LINE 1"), ("two/OUT", "desk/LINE 2"))
    new = _used(("one/OUT", "desk/LINE 2"), ("one/OUT", "desk/LINE 3"))
    told = _differ(old, new)
    assert len(told.moved) == 2 and told.plugs == 2


def test_a_breakout_counts_three_plugs() -> None:
    def broken_out(left: str, right: str) -> Plan:
        legs = cable("3.5 stereo > 2x 6.35 mono", "one/OUT", (left, right))
        return plan({}, [legs])

    told = _differ(broken_out("desk/A", "desk/B"), broken_out("desk/A", "desk/C"))
    assert told.plugs == 1 and len(told.moved) == 1
    assert _differ(broken_out("desk/A", "desk/B"), broken_out("desk/B", "desk/A")).plugs == 2


def test_seeds_reach_what_matters() -> None:
    """Some changes move plugs, and some have a price."""
    found = list(map(_what_if, SEEDS))
    assert sum(one.difference is not None and one.difference.plugs > 0 for one in found) > 10
    assert any(one.fresh is not None for one in found)
