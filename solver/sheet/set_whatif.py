"""What a change does to the plan of a set, as plain text and as JSON data."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from solver.codes import Code
from solver.flow.wording import counted
from solver.outcome import Impossible, PlannedSet, SetOutcome
from solver.sheet.cells import wrap
from solver.sheet.differences import cable_lines, laid_out, part_lines, setting_lines
from solver.sheet.sections import SAFETY
from solver.sheet.set_explaining import SetSource, clash_lines, repair_lines, set_explained_data
from solver.sheet.text import against
from solver.sheet.whatif import cables_said
from solver.sheet.whatif_data import difference_data
from solver.whatif.compared_sets import WhatIfSet
from solver.whatif.difference import Difference


def set_whatif_text(found: WhatIfSet, changes: Sequence[str], source: SetSource, width: int) -> str:
    """Tell the changes, what becomes of the plan, and what hands have to do: the wiring, then jam by jam.

    Args:
        found: The set before and after, and its plans.
        changes: A sentence for each change.
        source: The set and jam files.
        width: Cells a line.
    """
    title = found.before.title
    lines = wrap(f"What if, in {title}:" if changes else f"{title} as it is, against the plan in use:", width)
    for change in changes:
        lines += wrap(f"{change[0].upper()}{change[1:]}.", width, "- ", "  ")
    lines += ["", *wrap(_headline(found), width)]
    if found.why is not None:
        for one in found.why.clashes[:1]:
            lines += ["", *clash_lines(found.after, one, source, width)]
        for repair in found.why.repaired.repairs[:1]:
            lines += ["", "A way out:", *repair_lines(found.after, repair, source, width)]
    if found.wiring is not None and isinstance(found.has, PlannedSet):
        lines += _to_do(found, found.has, found.wiring, width)
    return "".join(f"{line}\n" for line in lines)


def _headline(found: WhatIfSet) -> str:
    had, has = found.had, found.has
    if isinstance(has, Impossible):
        was = "it was possible before" if isinstance(had, PlannedSet) else "as before"
        return f"Impossible, proved ({was}): no one wiring serves all of its jams."
    if not isinstance(has, PlannedSet):
        return (
            "Not decided: in the time given, neither a plan was found nor a proof that there is none. "
            f"Give it more time: --time-limit takes seconds. [{Code.UNDECIDED}]"
        )
    assert has.best.goals is not None
    cables = counted(has.best.goals.cables, "cable")
    hands = f"{counted(has.best.goals.by_hand, 'setting')} to move by hand between jams"
    if isinstance(had, PlannedSet):
        cables += against(len(had.best.cables), len(has.best.cables))
        if had.best.goals is not None:
            hands += against(had.best.goals.by_hand, has.best.goals.by_hand)
        return f"Possible: {cables}; {hands}."
    before = "It was impossible before." if isinstance(had, Impossible) else "Before, it was not decided."
    return f"Possible: {cables}; {hands}. {before}"


def _to_do(found: WhatIfSet, has: PlannedSet, wiring: Difference, width: int) -> Iterator[str]:
    yield from ("", *wrap(cables_said(wiring), width))
    yield from laid_out(cable_lines(wiring), width)
    stored = setting_lines(wiring)
    yield from ("", *wrap("Stored by boxes, for all jams:" if stored else "Nothing changes that boxes store.", width))
    yield from laid_out(stored, width)
    same = []
    for number, (file, differs) in enumerate((found.jams or {}).items(), start=1):
        jam, old = found.after.jams[file], found.had.best.jams.get(file) if isinstance(found.had, PlannedSet) else None
        if old is None:
            count = counted(sum(setting.stored == "project" for setting in has.best.jams[file].settings), "setting")
            yield from (
                "",
                *wrap(f"{number} {jam.title} is new, with {count} of its own; hardpan plan shows them.", width),
            )
            continue
        before = found.before.jams[file]
        said = [*part_lines(before, jam, old, has.best.jams[file], differs), *setting_lines(differs)]
        if said:
            yield from ("", *wrap(f"{number} {jam.title}:", width), *laid_out(said, width))
        else:
            same.append(f"{number} {jam.title}")
    if same:
        yield from ("", *wrap(f"As before: {', '.join(same)}.", width))
    if wiring.moves_plugs:
        yield from ("", *wrap(SAFETY[0], width))


def set_whatif_data(found: WhatIfSet, changes: Sequence[str], source: SetSource) -> dict[str, Any]:
    """The same as JSON data."""
    why = set_explained_data(found.after, found.why, source) if found.why is not None else {}
    return {
        "title": found.before.title,
        "status": _status(found.has),
        "changes": list(changes),
        "before": _goals(found.had),
        "after": _goals(found.has),
        "difference": difference_data(found.wiring) if found.wiring is not None else None,
        "jams": {file: difference_data(differs) for file, differs in (found.jams or {}).items()},
        "conflicts": why.get("conflicts", []),
        "repairs": why.get("repairs", []),
        "plan": found.has.best.to_json() if isinstance(found.has, PlannedSet) else None,
    }


def _status(outcome: SetOutcome) -> str:
    if isinstance(outcome, PlannedSet):
        return outcome.best.status
    return "impossible" if isinstance(outcome, Impossible) else "undecided"


def _goals(outcome: SetOutcome) -> dict[str, Any] | None:
    if not isinstance(outcome, PlannedSet) or outcome.best.goals is None:
        return None
    return outcome.best.goals.model_dump()
