"""A plan as plain text for a terminal."""

from collections.abc import Iterable, Sequence

from solver.flow.settings import goals_of
from solver.flow.wording import counted
from solver.jam.jam import Jam
from solver.outcome import Planned
from solver.plans import Goals, Plan
from solver.sheet.cells import clean, width_of, wrap
from solver.sheet.differences import alternative_section
from solver.sheet.sections import (
    cables_section,
    cautions_section,
    parts_section,
    settings_section,
    silence_section,
    sounds_section,
    timing_section,
)
from solver.sheet.words import time_taken

NARROWEST, WIDEST = 80, 100
"""Cells a line: the least a terminal is taken to have, and the most that reads well."""


def plan_text(jam: Jam, planned: Planned, width: int) -> str:
    """Write the sheet of the best plan, then what is different in each other one.

    Args:
        jam: what was asked for.
        planned: what was found.
        width: cells a line may take, 80 to 100.

    Returns:
        Lines without a space at their end, each ended by a line feed.
    """
    plan = planned.best
    lines = _sheet(jam, plan, headline(planned), width)
    for number, other in enumerate(planned.plans[1:], start=2):
        lines += ["", *wrap(f"Alternative {number}: {compared(plan, other)}", width)]
        lines += alternative_section(jam, plan, other, width)
    return "\n".join(lines) + "\n"


def sheet_text(jam: Jam, plan: Plan, width: int) -> str:
    """Write the sheet of a plan that was found some time ago."""
    return "\n".join(_sheet(jam, plan, cost_words(plan), width)) + "\n"


def _sheet(jam: Jam, plan: Plan, said: str, width: int) -> list[str]:
    lines = [*headed(plan.title, "=", width), *wrap(said, width), *wrap(frame(jam), width)]
    for title, section in (
        ("Cables, in plugging order", cables_section(jam, plan, width)),
        ("Settings to make", settings_section(jam, plan, width)),
        ("Parts", parts_section(jam, plan, width)),
        ("Engines to keep silent", silence_section(jam, plan, width)),
        ("Sounds to prepare", sounds_section(jam, plan, width)),
        ("MIDI timing", timing_section(plan, width)),
        ("Cautions", cautions_section(plan, width)),
    ):
        lines += ["", *headed(title, "-", width), *section] if section else []
    return lines


def headed(title: str, sign: str, width: int) -> list[str]:
    """A title, underlined."""
    lines = wrap(title, width)
    return [*lines, sign * max(map(width_of, lines))]


def headline(planned: Planned) -> str:
    """How many cables and settings, what is proved of each, and how long it took."""
    took = time_taken(planned.seconds)
    end = f"Stopped early, after {took}." if planned.stopped else f"Planned in {took}."
    return f"{cost_words(planned.best)} {end}"


def cost_words(plan: Plan) -> str:
    """How many cables and settings, and what is proved of each."""
    cost = goals_of(plan)
    cables = counted(cost.cables, "cable")
    settings = f"{counted(cost.settings_moved, 'setting')} to move"
    if cost.silenced:
        settings += f" ({cost.silenced} of them a level turned down to zero)"
    if not plan.proof.get("cables", False):
        found = f"{cables} found; whether fewer would do is not proved" if cost.cables else f"{cables} needed"
        said = f"{found}; {settings}"
    elif not cost.settings_moved:
        said = f"{cables}, proved the fewest; {settings}"
    elif plan.proof.get("settings_moved", False):
        said = f"{cables} and {settings}, both proved the fewest"
    else:
        said = f"{cables}, proved the fewest; {settings}, not proved the fewest"
    amounts = sum(setting.was is None for setting in plan.settings)
    if amounts:
        said += f"; {counted(amounts, 'amount')} to set"
    return f"{said[0].upper()}{said[1:]}."


def frame(jam: Jam) -> str:
    """Who leads, where the ears are, the mains and the tempo."""
    return f"Leader {jam.leader}; ears on {jam.listen}; {jam.mains} mains; {jam.tempo:g} beats a minute."


def compared(best: Plan, other: Plan) -> str:
    """The cost of another plan against the best one."""
    return f"{cost_against(goals_of(best), goals_of(other))}."


def cost_against(had: Goals, has: Goals) -> str:
    """What a plan costs, against another one."""
    cables = counted(has.cables, "cable") + against(had.cables, has.cables)
    settings = f"{counted(has.settings_moved, 'setting')} to move" + against(had.settings_moved, has.settings_moved)
    return f"{cables}, {settings}"


def against(had: int, has: int) -> str:
    """A count against another one: so many more or fewer."""
    if had == has:
        return " (as many)" if has else ""
    return f" ({has - had} more)" if has > had else f" ({had - has} fewer)"


def breach_text(breaches: Iterable[Sequence[str]]) -> str:
    """Write one line for each broken rule: its id, its sentence, and where it is broken.

    Args:
        breaches: rule id, sentence and where, for each.
    """
    return "".join(
        f"{clean(rule)} {clean(sentence).rstrip(' .')}: {clean(where)}".rstrip() + "\n"
        for rule, sentence, where in breaches
    )
