"""What a change does to the plan of a jam, as JSON data."""

from __future__ import annotations

from collections.abc import Sequence

from solver.flow.settings import goals_of
from solver.jam.jam import Jam
from solver.outcome import Impossible, Outcome, Planned
from solver.plans import Cable
from solver.sheet.edits import Source
from solver.sheet.reasons_data import clash_data, repair_data
from solver.whatif.compared import Fresh, WhatIf
from solver.whatif.difference import Difference
from solver.whatif.room import room

Data = dict[str, object]


def whatif_data(found: WhatIf, changes: Sequence[str], source: Source) -> Data:
    """The same as JSON data."""
    plan = found.has.best if isinstance(found.has, Planned) else None
    why = found.why
    return {
        "title": found.before.title,
        "status": _status(found.has),
        "changes": list(changes),
        "before": _side(found.before, found.had),
        "after": _side(found.after, found.has),
        "difference": difference_data(found.difference) if found.difference is not None else None,
        "fresh": _fresh_data(found.fresh) if found.fresh is not None else None,
        "conflicts": [clash_data(found.after, clash) for clash in why.clashes] if why is not None else [],
        "repairs": [repair_data(repair, source) for repair in why.repaired.repairs] if why is not None else [],
        "plan": plan.to_json() if plan is not None else None,
    }


def difference_data(differs: Difference) -> Data:
    """A difference as JSON data: what to do with cables and settings, and what parts do before and after."""
    return {
        "pull": [_cable(cable) for cable in differs.pulled],
        "move": [{"old": _cable(move.old), "new": _cable(move.new)} for move in differs.moved],
        "plug": [_cable(cable) for cable in differs.plugged],
        "stay": differs.stay,
        "plugs_moved": differs.plugs,
        "settings": [
            {**turn.place._asdict(), "value": turn.new, "was": turn.old, "stored": turn.stored}
            for turn in differs.settings
        ],
        "parts": {
            name: {
                "old": was.model_dump(mode="json") if was is not None else None,
                "new": now.model_dump(mode="json") if now is not None else None,
            }
            for name, (was, now) in differs.parts.items()
        },
    }


def _cable(cable: Cable) -> Data:
    return cable.model_dump(mode="json", by_alias=True)


def _status(outcome: Outcome) -> str:
    if isinstance(outcome, Planned):
        return outcome.best.status
    return "impossible" if isinstance(outcome, Impossible) else "undecided"


def _side(jam: Jam, outcome: Outcome) -> Data:
    """What a plan costs and leaves free."""
    if not isinstance(outcome, Planned):
        return {"status": _status(outcome)}
    has = room(jam, outcome.best, goals_of(outcome.best))
    return {
        "status": _status(outcome),
        "goals": has.goals.model_dump(),
        "treated": has.treated,
        "sides_free": [f"{jack} {side}" for jack, side in has.sides],
        "strips_free": [str(strip) for strip in has.strips],
        "channels_free": list(has.channels),
    }


def _fresh_data(fresh: Fresh) -> Data:
    goals = goals_of(fresh.plan)
    return {"goals": goals.model_dump(), "plugs_moved": fresh.difference.plugs}
