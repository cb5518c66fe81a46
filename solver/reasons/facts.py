"""What about the gear matters to a conflict: a fact matters where the conflict is gone once the gear is eased there.

Every fact comes with its ease: the same gear with one more of something, or without one limit. What can be counted is
added until the conflict is gone, which tells how many it needs.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import suppress

from solver.gear.words import Spot
from solver.jam.claims import Claim
from solver.jam.jam import Jam
from solver.reasons.box_facts import box_facts, stored_facts
from solver.reasons.easing import Ease, Fact
from solver.reasons.trial import NotDecidedError, TooManyReadingsError, Trial
from solver.reasons.wish_facts import counted_facts, wish_facts

MOST_ADDED = 6
"""How many of a thing are added at most to find out how many a conflict needs."""


def known_facts(trial: Trial, claims: Iterable[Claim]) -> tuple[Fact, ...]:
    """The facts that matter to the claims, as far as the time goes."""
    known: list[Fact] = []
    with suppress(NotDecidedError):
        known.extend(facts(trial, claims))
    return tuple(known)


def facts(trial: Trial, claims: Iterable[Claim]) -> Iterator[Fact]:
    """The facts without any one of which the claims would have a plan.

    Raises:
        OutOfTimeError: time is up before all are known.
    """
    listed = tuple(claims)
    for jam, ease in _eases(trial, listed):
        if ease.eased is None:
            yield ease.fact
            continue
        fact, steps = ease.fact, [trial]
        for _ in range(MOST_ADDED if fact.has is not None else 1):
            steps.append(steps[-1].within(ease.eased))
        with suppress(TooManyReadingsError):
            if not steps[-1].fails(listed):
                enough = (n for n, eased in enumerate(steps[1:], 1) if not eased.fails(listed))
                yield fact if fact.has is None else _counted(jam, fact, fact.has + next(enough), listed)


def _eases(trial: Trial, listed: Sequence[Claim]) -> Iterator[tuple[Jam, Ease]]:
    """What could be eased for each jam, in its own words; what all jams have in common once."""
    told: set[str] = set()
    for file, jam in trial.stated.items():
        own = [claim for claim in listed if claim.jam == file]
        stored = stored_facts(jam) if len(trial.stated) > 1 else ()
        for ease in (*counted_facts(jam, own), *stored, *box_facts(jam), *wish_facts(jam, own)):
            if ease.fact.sentence not in told:
                told.add(ease.fact.sentence)
                yield jam, ease


def _counted(jam: Jam, fact: Fact, needs: int, claims: Iterable[Claim]) -> Fact:
    """The fact with what is needed, both without what the claims avoid of it."""
    avoided = 0
    for claim in claims:
        spot = Spot.parse(claim.piece[-1])
        if claim.piece[0] == "jack" and spot.box == fact.box:
            avoided += fact.kind == ("side" if jam.rig.jacks[spot].sends else "strip")
        elif claim.piece[0] == "port" and spot.box == fact.box:
            avoided += fact.kind == ("thru" if jam.rig.ports[spot].passes_on else "out")
    said = f"{fact.sentence}, and you avoid {avoided} of them" if avoided else fact.sentence
    return fact._replace(sentence=said, has=(fact.has or 0) - avoided, needs=needs - avoided)
