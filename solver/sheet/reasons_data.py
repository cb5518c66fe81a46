"""Explanations as JSON data."""

from __future__ import annotations

from collections.abc import Iterable

from solver.flow.settings import goals_of
from solver.jam.jam import Jam
from solver.reasons.conflicts import Conflict
from solver.reasons.explained import Clash, Fewer, Instead, WhyImpossible
from solver.reasons.repairs import Repair
from solver.reasons.whys import WhyPossible
from solver.sheet.cells import clean
from solver.sheet.claims import said
from solver.sheet.edits import Source, edit_text
from solver.sheet.explaining import headline


def explained_data(jam: Jam, why: WhyImpossible, source: Source) -> dict[str, object]:
    """The same as JSON data."""
    return {
        "title": jam.title,
        "possible": False,
        "conflicts": [
            clash_data(jam, clash) | {"group": number}
            for number, group in enumerate(why.groups, start=1)
            for clash in group
        ],
        "all": why.all,
        "repairs": [repair_data(repair, source) for repair in why.repaired.repairs],
        "all_repairs": why.repaired.done,
    }


def clash_data(jam: Jam, clash: Clash) -> dict[str, object]:
    """A conflict as JSON data."""
    return {
        "statements": list(clash.conflict.statements),
        "facts": [fact.sentence for fact in clash.facts],
        "minimal": clash.conflict.minimal,
        "headline": headline(jam, clash),
        "says": [clean(str(said(jam, claim, _there(clash)))) for claim in clash.conflict.claims],
    }


def _there(clash: Clash) -> Iterable[str]:
    return [claim.parts[0] for claim in clash.conflict.claims if claim.piece[0] == "part"]


def repair_data(repair: Repair, source: Source) -> dict[str, object]:
    """A way out as JSON data."""
    goals = repair.planned.best.goals
    assert goals is not None
    return {
        "drop": [edit.statement for edit in repair.edits if edit.drops],
        "add": [edit.says for edit in repair.edits if not edit.drops],
        "cost": repair.cost,
        "cheapest": repair.cheapest,
        "cables": goals.cables,
        "edits": [
            {"statement": edit.statement, "line": source.line(edit.path), "edit": edit_text(edit, source)}
            for edit in repair.edits
        ],
    }


def whys_data(jam: Jam, why: WhyPossible) -> dict[str, object]:
    """The same as JSON data."""
    goals = goals_of(why.planned.best)
    return {
        "title": jam.title,
        "possible": True,
        "conflicts": [],
        "repairs": [],
        "goals": goals.model_dump(),
        "whys": [
            {
                "what": one.what,
                "because": one.because,
                "statements": list(Conflict(one.claims, minimal=True).statements),
                "facts": [fact.sentence for fact in one.facts],
                "more": one.more,
                "says": one.says,
            }
            for one in why.whys
        ],
    }


def fewer_data(jam: Jam, fewer: Fewer) -> dict[str, object]:
    """The same as JSON data: the conflict is with one cable less."""
    conflict = fewer.conflict
    told = {"statements": list(conflict.statements), "facts": [], "minimal": conflict.minimal} if conflict else None
    return {
        "title": jam.title,
        "possible": True,
        "conflicts": [] if told is None else [told],
        "repairs": [],
        "goals": goals_of(fewer.planned.best).model_dump(),
    }


def instead_data(jam: Jam, found: Instead) -> dict[str, object]:
    """The same as JSON data."""
    clash, after = found.clash, found.after
    return {
        "title": jam.title,
        "possible": clash is None,
        "conflicts": [] if clash is None else [clash_data(jam, clash)],
        "repairs": [],
        "before": goals_of(found.before.best).model_dump(),
        "after": None if after is None else goals_of(after.best).model_dump(),
        "plan": None if after is None else after.best.to_json(),
    }
