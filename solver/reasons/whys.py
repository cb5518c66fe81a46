"""Says of each cable, channel, pan and level of a plan why it is so: what forces it, or which goal chose it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, NamedTuple

from solver.flow.followed import Followed
from solver.flow.settings import goals
from solver.flow.wires import worded
from solver.flow.wording import counted, listing
from solver.gear.cables import MIDI_KINDS
from solver.gear.words import Spot
from solver.jam.claims import Claim
from solver.jam.intents import Avoid, Keep, Kept, Shunned, Wish
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Cable, Plan
from solver.reasons.conflicts import conflict_in
from solver.reasons.easing import Fact
from solver.reasons.facts import known_facts
from solver.reasons.trial import NotDecidedError, Tell, Trial
from solver.search.clock import Clock
from solver.search.planner import search

Because = Literal["stated", "cables", "settings", "tidy", "notes", "time"]
"""What a choice comes from: nothing else meets the wishes; the fewest cables; the fewest settings; file order alone;
notes that would strike an engine without a part; or nobody knows, for the time was up."""


class Why(NamedTuple):
    """One thing of a plan: what it is, what it comes from, the claims that force it, and what another would cost.

    ``more`` counts the settings that a plan without it needs besides, where that goal chose it, and ``says`` words it.
    """

    what: str
    because: Because
    claims: tuple[Claim, ...] = ()
    more: int = 0
    says: str = ""
    without: str = ""
    facts: tuple[Fact, ...] = ()


@dataclass(frozen=True)
class WhyPossible:
    """The plan of a jam, and why each thing of it is so."""

    planned: Planned
    whys: tuple[Why, ...]
    seconds: float


def whys(jam: Jam, plan: Plan, clock: Clock, tell: Tell = lambda: None) -> Iterator[Why]:
    """Why each cable, channel, pan and level is as it is, in the order of the plan's sheet."""
    for what, without, instead in _questions(jam, plan):
        yield _because(jam, plan, instead, clock, tell)._replace(what=what, without=without)
    yield from _engines(jam, plan)


def _questions(jam: Jam, plan: Plan) -> Iterator[tuple[str, str, Wish]]:
    """Each thing that somebody may ask about, what to do without it, and the wish for that."""
    for cable in plan.cables:
        empty = _sender(cable)
        shunned = Shunned(ports=(empty,)) if cable.kind in MIDI_KINDS else Shunned(jacks=(empty,))
        yield worded(cable), f"with {empty} left empty", Avoid(avoid=shunned)
    for part, planned in plan.parts.items():
        stands = jam.rig.tracks[Spot.parse(planned.track)].stands
        first = jam.layer_of(part)[0] == part
        if first and isinstance(stands, int) and planned.channel not in (None, stands):
            what = f"channel {planned.channel} instead of {stands} for {listing(jam.layer_of(part))}"
            yield what, f"on channel {stands}", Keep(keep=Kept(part=part, channel=stands))
        if planned.pan != "centre":
            yield f"pan {planned.pan} for {part}", "at centre", Keep(keep=Kept(part=part, pan="centre"))


def _sender(cable: Cable) -> str:
    """The socket that a cable comes from; of a breakout that sends from two, the single one that it goes to."""
    single = next(end for end in (cable.source, cable.to) if isinstance(end, str))
    return cable.source if isinstance(cable.source, str) else single


def _because(jam: Jam, plan: Plan, instead: Wish, clock: Clock, tell: Tell) -> Why:
    """Whether there is a plan the other way, with as many cables, and with as few settings."""
    try:
        for most in (None, len(plan.cables)):
            trial = Trial(jam, clock, asked=(instead,), most_cables=most, tell=tell)
            if trial.fails(trial.claims):
                conflict = conflict_in(trial, frozenset(trial.claims))
                return Why(
                    "",
                    "stated" if most is None else "cables",
                    conflict.claims,
                    facts=known_facts(trial, conflict.claims),
                )
    except NotDecidedError:
        return Why("", "time")
    other = search(jam.changed(intents=(*jam.intents, instead)), time_limit=clock.left)
    if not isinstance(other, Planned) or other.best.status != "proved":
        return Why("", "time")
    had, has = goals(plan), goals(other.best)
    if has.silenced > had.silenced:
        more = has.silenced - had.silenced
        return Why("", "settings", more=more, says=f"{counted(more, 'more engine')} would have to be at level zero")
    more = has.settings_moved - had.settings_moved
    if not more:
        return Why("", "tidy")
    return Why("", "settings", more=more, says=f"{counted(more, 'more setting')} would have to move")


def _engines(jam: Jam, plan: Plan) -> Iterator[Why]:
    """Engines that leave their channel or their level: for their part, or for notes that would strike them."""
    followed = Followed(jam, plan)
    for name, planned in plan.engines.items():
        spot = Spot.parse(name)
        stands = jam.rig.engines[spot].stands
        if planned.channel == stands and planned.level == "up":
            continue
        now = "off" if planned.channel == "off" else f"on channel {planned.channel}"
        what = f"{name} at level zero" if planned.level == "zero" else f"{name} {now} instead of {stands}"
        tenants = followed.tenants.get(spot, ())
        if tenants:
            track = followed.tracks[tenants[0]]
            yield Why(what, "notes", says=f"it holds {listing(tenants)}, and {track} sends there")
        else:
            arriving = followed.notes.arriving[spot.box]
            striking = [track for track, channel in arriving.items() if stands in (channel, "all")]
            parts = listing(part for track in striking for part in followed.notes.playing[track])
            yield Why(what, "notes", says=f"it has no part, and would sound for {parts} where it stands")
