"""What single changes would do to a plan, side by side, as text and as data."""

from __future__ import annotations

from collections.abc import Mapping

from solver.flow.settings import goals_of
from solver.flow.wording import counted
from solver.jam.jam import Jam
from solver.outcome import Impossible, Planned
from solver.plans import Goals
from solver.sheet.cells import wrap
from solver.sheet.edits import Source
from solver.sheet.tables import table
from solver.sheet.text import against
from solver.whatif.sweep import About, Row, Sweep, Then

HEADINGS: Mapping[About, str] = {
    "lose": "If something is lost",
    "more": "With one more",
    "without": "With one wish less",
}


def sweep_text(jam: Jam, found: Sweep, source: Source, width: int) -> str:
    """Tell what each change would do: what breaks, what gets cheaper, what becomes possible."""
    base = goals_of(found.base.best) if isinstance(found.base, Planned) else None
    said = _cost(base) if base is not None else "impossible" if isinstance(found.base, Impossible) else "not decided"
    lines = wrap(f"{jam.title} as it is: {said}. What if, one change at a time:", width)
    for about, heading in HEADINGS.items():
        rows = [
            (
                f"{row.change.says} ({row.change.statement})" if row.change.statement else row.change.says,
                _then(row, base),
            )
            for row in found.rows
            if row.change.about == about
        ]
        if rows:
            lines += ["", *table((heading.lower(), "then"), rows, width)]
    if not found.done:
        lines += ["", *wrap("The time was too short for all of them: --time-limit takes seconds.", width)]
    lines += ["", *wrap(f"Next: {_next(found, source)}", width)]
    return "".join(f"{line}\n" for line in lines)


def _cost(goals: Goals) -> str:
    return f"{counted(goals.cables, 'cable')}, {counted(goals.settings_moved, 'setting')} to move"


def _then(row: Row, base: Goals | None) -> str:
    if not isinstance(row.then, Then):
        return "not decided" if row.then == "undecided" else "impossible" if base is not None else "still impossible"
    if row.then.same and base is not None:
        return "as now"
    goals = row.then.goals
    if base is None:
        said = f"possible: {_cost(goals)}"
    else:
        said = counted(goals.cables, "cable") + against(base.cables, goals.cables)
        said += f"; {counted(row.then.plugs, 'plug')} to move" if row.then.plugs else ""
        said += f"; {counted(row.then.settings, 'setting')} to change" if row.then.settings else ""
    return said if row.then.proved else f"{said}; not proved the fewest"


def _next(found: Sweep, source: Source) -> str:
    """A command that shows more of one row: of a wish whose loss gains something."""
    base = goals_of(found.base.best) if isinstance(found.base, Planned) else None
    for row in found.rows:
        if row.change.statement and isinstance(row.then, Then) and (base is None or _gains(row.then.goals, base)):
            return f"hardpan whatif {source.shell} --drop {row.change.statement} shows what to move then."
    return "hardpan whatif --help lists the changes that can be tried one by one."


def _gains(has: Goals, had: Goals) -> bool:
    return (has.cables, has.silenced, has.settings_moved) < (had.cables, had.silenced, had.settings_moved)


def sweep_data(jam: Jam, found: Sweep) -> dict[str, object]:
    """The same as JSON data."""
    base = goals_of(found.base.best) if isinstance(found.base, Planned) else None
    return {
        "title": jam.title,
        "goals": base.model_dump() if base is not None else None,
        "done": found.done,
        "changes": [
            {
                "about": row.change.about,
                "says": row.change.says,
                "statement": row.change.statement or None,
                "then": "possible" if isinstance(row.then, Then) else row.then,
                "goals": row.then.goals.model_dump() if isinstance(row.then, Then) else None,
                "plugs_moved": row.then.plugs if isinstance(row.then, Then) else None,
                "settings_changed": row.then.settings if isinstance(row.then, Then) else None,
            }
            for row in found.rows
        ],
    }
