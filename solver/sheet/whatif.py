"""What a change does to the plan of a jam, as plain text."""

from __future__ import annotations

import shlex
from collections.abc import Iterator, Sequence

from solver.codes import Code
from solver.flow.settings import goals_of
from solver.flow.wording import counted, listing
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.outcome import Impossible, Outcome, Planned
from solver.plans import Plan
from solver.reading.writing import exact
from solver.reasons.explained import WhyImpossible
from solver.sheet.cells import wrap
from solver.sheet.differences import cable_lines, laid_out, part_lines, setting_lines
from solver.sheet.edits import Source
from solver.sheet.explaining import conflict_text, repair_text, sentence
from solver.sheet.sections import SAFETY
from solver.sheet.tables import table
from solver.sheet.text import against
from solver.whatif.compared import WhatIf
from solver.whatif.difference import Difference
from solver.whatif.room import Room, room


def whatif_text(found: WhatIf, changes: Sequence[str], source: Source, width: int) -> str:
    """Tell the changes, what becomes of the plan, what it gains and costs, and what hands have to do.

    Args:
        found: The jam before and after, and its plans.
        changes: A sentence for each change.
        source: The jam file, with lines for the jam after the changes.
        width: Cells a line.
    """
    jam = found.before
    lines = wrap(f"What if, in {jam.title}:" if changes else f"{jam.title} as it is, against the plan in use:", width)
    for change in changes:
        lines += wrap(f"{sentence(jam, change)}.", width, "- ", "  ")
    lines += ["", *wrap(_headline(found), width)]
    if found.why is not None:
        lines += _impossible(found, found.why, source, width)
    if isinstance(found.has, Planned) and found.difference is not None:
        lines += ["", *_rooms(found, width)]
        lines += _difference(found, found.has.best, found.difference, width)
    return "".join(f"{line}\n" for line in lines)


def _headline(found: WhatIf) -> str:
    had, has = found.had, found.has
    if isinstance(has, Impossible):
        was = "it was possible before" if isinstance(had, Planned) else "as before"
        return f"Impossible, proved ({was})." if isinstance(had, Planned | Impossible) else "Impossible, proved."
    if not isinstance(has, Planned):
        return (
            "Not decided: in the time given, neither a plan was found nor a proof that there is none. "
            f"Give it more time: --time-limit takes seconds. [{Code.UNDECIDED}]"
        )
    if found.difference is not None and isinstance(had, Planned) and found.difference.none:
        return f"The plan stays as it is: {_cost(has.best)}."
    if isinstance(had, Planned):
        cables = counted(len(has.best.cables), "cable") + against(len(had.best.cables), len(has.best.cables))
        turned = found.difference.turned if found.difference is not None else 0
        return f"Possible: {cables}; {counted(turned, 'setting')} to change."
    before = "It was impossible before." if isinstance(had, Impossible) else "Before, it was not decided."
    return f"Possible: {_cost(has.best)}. {before}"


def _cost(plan: Plan) -> str:
    cost = goals_of(plan)
    return f"{counted(cost.cables, 'cable')}, {counted(cost.settings_moved, 'setting')} to move"


def _impossible(found: WhatIf, why: WhyImpossible, source: Source, width: int) -> Iterator[str]:
    yield ""
    if not why.clashes:
        yield from wrap("The time was too short to find out which lines these are.", width)
    for clash in why.clashes[:1]:
        yield from conflict_text(found.after, clash, source, width)
    yield ""
    if not why.repaired.repairs:
        yield from wrap("No way out was found in a few seconds among the changes that hardpan knows.", width)
    for repair in why.repaired.repairs[:1]:
        yield from wrap("The cheapest way out:" if repair.cheapest else "A way out:", width)
        yield from repair_text(found.after, repair, source, width)


def _rooms(found: WhatIf, width: int) -> list[str]:
    """What each plan costs and leaves free, side by side."""
    after = _row(found.after, found.has)
    before = _row(found.before, found.had)
    rows = [(what, before.get(what, "-"), said) for what, said in after.items()]
    return table(("what", "before", "after"), rows, width)


def _row(jam: Jam, outcome: Outcome) -> dict[str, str]:
    if not isinstance(outcome, Planned):
        return {}
    has: Room = room(jam, outcome.best, goals_of(outcome.best))
    silenced = {"engines turned down to zero": str(has.goals.silenced)} if has.goals.silenced else {}
    return {
        "cables": str(has.goals.cables),
        "settings away from the box files": str(has.goals.settings_moved),
        **silenced,
        "parts treated": str(has.treated),
        "outlet sides free": str(len(has.sides)),
        "strips free": str(len(has.strips)),
        "channels free": str(len(has.channels)),
    }


def _difference(found: WhatIf, plan: Plan, differs: Difference, width: int) -> Iterator[str]:
    old = found.had.best if isinstance(found.had, Planned) else None
    yield from ("", *wrap(cables_said(differs), width))
    yield from laid_out(cable_lines(differs), width)
    parts = part_lines(found.before, found.after, old, plan, differs)
    yield from ("", "Parts:", *laid_out(parts, width)) if parts else ()
    settings = setting_lines(differs)
    yield from (
        "",
        *wrap("Settings, each from its old to its new value:" if settings else "No setting changes.", width),
    )
    yield from laid_out(settings, width)
    if found.fresh is not None:
        yield from ("", *wrap(_price(plan, found.fresh.plan, found.fresh.difference), width))
    moved = [name for name, (was, now) in differs.parts.items() if was and now and was.engine != now.engine]
    kept = [name for name in moved if _may_stay(found.after, name, differs)]
    if moved:
        yield from ("", *wrap(_rehomed(moved, kept, differs), width))
    if differs.moves_plugs:
        yield from ("", *wrap(SAFETY[0], width))


def _may_stay(after: Jam, name: str, differs: Difference) -> bool:
    """Whether the jam lets a part live where it lived, so that its move was not asked for."""
    was, on = differs.parts[name][0], after.parts[name].on
    home = Spot.parse(was.engine if was is not None else "")
    return home in after.rig.engines and on in (None, home.box, str(home))


def _rehomed(moved: Sequence[str], kept: Sequence[str], differs: Difference) -> str:
    """Parts that change their engine take their sound along; how to keep the first of them that may stay."""
    take = "takes its sound" if len(moved) == 1 else "take their sounds"
    said = f"{listing(moved)} {take} along to another engine."
    for name in kept[:1]:
        was = differs.parts[name][0]
        assert was is not None
        keep = shlex.quote(f"keep = {exact({'part': name, 'engine': was.engine})}")
        said += f" To keep {name} where it is: --add-intent {keep}"
    return said


def cables_said(differs: Difference) -> str:
    """How many cables to pull, to move and to plug, and how many stay."""
    done = [
        (len(differs.pulled), "to pull"),
        (len(differs.moved), "to move by a plug"),
        (len(differs.plugged), "to plug"),
    ]
    said = [f"{count} {what}" for count, what in done if count]
    stay = f"{differs.stay} {'stays' if differs.stay == 1 else 'stay'}"
    if not said:
        return f"Cables: all {stay}." if differs.stay else "Cables: none."
    return f"Cables: {listing(said)}; {stay if differs.stay else 'none stays'}."


def _price(near: Plan, free: Plan, differs: Difference) -> str:
    """What staying near the plan in use costs."""
    had, has = goals_of(near), goals_of(free)
    fewer = [f"{counted(has.cables, 'cable')}{against(had.cables, has.cables)}"] if has.cables < had.cables else []
    if has.silenced < had.silenced:
        fewer.append(f"{counted(had.silenced - has.silenced, 'engine')} fewer turned down to zero")
    if has.settings_moved != had.settings_moved:
        more = against(had.settings_moved, has.settings_moved)
        fewer.append(f"{counted(has.settings_moved, 'setting')} away from the box files{more}")
    settings = f"{counted(differs.turned, 'setting')} to change"
    afresh = f"with {counted(differs.plugs, 'plug')} to move and {settings}, it would be {listing(fewer)}"
    return f"Staying near the plan in use has its price: {afresh}. See it: --fresh."
