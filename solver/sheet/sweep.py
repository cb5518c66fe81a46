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
from solver.sheet.text import cost_against
from solver.whatif.sweep import About, Row, Sweep

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
    if not isinstance(row.then, Goals):
        return "not decided" if row.then == "undecided" else "impossible" if base is not None else "still impossible"
    if base is None:
        return f"possible: {_cost(row.then)}"
    return "as now" if row.then == base else cost_against(base, row.then)


def _next(found: Sweep, source: Source) -> str:
    """A command that shows more of one row: of a wish whose loss gains something, else of any wish."""
    base = goals_of(found.base.best) if isinstance(found.base, Planned) else None
    dropped = [row for row in found.rows if row.change.statement]
    gains = [row for row in dropped if isinstance(row.then, Goals) and (base is None or _gains(row.then, base))]
    for row in (gains or dropped)[:1]:
        change = f"{source.shell} --drop {row.change.statement}"
        return f"hardpan whatif {change} shows what to move then, or why it is impossible."
    return "hardpan whatif --help lists the changes that can be tried."


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
                "then": "possible" if isinstance(row.then, Goals) else row.then,
                "goals": row.then.model_dump() if isinstance(row.then, Goals) else None,
            }
            for row in found.rows
        ],
    }
