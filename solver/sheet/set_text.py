"""The plan of a set as plain text: the wiring once, what is set once, each jam, and what is done between jams."""

from __future__ import annotations

from collections.abc import Iterator

from solver.flow.wording import counted
from solver.gear.words import Spot
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import PlannedSet
from solver.plans import Plan
from solver.set_plans import Between, Change, SetPlan
from solver.sheet.carried import carried
from solver.sheet.cells import NO_BREAK, wrap
from solver.sheet.sections import (
    CABLE_HEADERS,
    SAFETY,
    parts_section,
    points,
    recall_words,
    silence_section,
    sounds_section,
    stored_section,
)
from solver.sheet.tables import table
from solver.sheet.text import cost_against, frame, headed
from solver.sheet.words import end_words, shift_words

NO_SLOT = "no slot is named for it under [recall]"


def set_text(asked: JamSet, planned: PlannedSet, width: int) -> str:
    """Write the sheet of a set's best plan, then how many cables and settings each other one takes.

    Args:
        asked: What was asked for.
        planned: What was found.
        width: Cells a line may take, 80 to 100.
    """
    plan = planned.best
    lines = _sheet(asked, plan, set_headline(planned), width)
    for number, other in enumerate(planned.plans[1:], start=2):
        assert plan.goals is not None and other.goals is not None
        lines += ["", *wrap(f"Alternative {number}: {cost_against(plan.goals, other.goals)}.", width)]
        lines += _cables(asked, other, width)
    return "\n".join(lines) + "\n"


def set_sheet_text(of: JamSet, plan: SetPlan, width: int) -> str:
    """Write the sheet of a plan that was found some time ago."""
    return "\n".join(_sheet(of, plan, set_cost_words(plan), width)) + "\n"


def _sheet(asked: JamSet, plan: SetPlan, said: str, width: int) -> list[str]:
    lines = [*headed(plan.title, "=", width), *wrap(said, width), *_order(asked, width)]
    once = stored_section(asked.jams.values(), plan.jams.values(), "box", width)
    lines += _section("Cables, in plugging order", _cables(asked, plan, width), width)
    lines += _section("Settings to make once, for all jams", once, width)
    between = {one.before: one for one in plan.between}
    for number, (file, jam) in enumerate(asked.jams.items(), start=asked.first):
        lines += _section(f"{number}. {jam.title}", _jam(jam, plan.jams[file], between.get(file), width), width)
    return lines + _section("Cautions for every jam", points(SAFETY, width), width)


def _section(title: str, lines: list[str], width: int) -> list[str]:
    return ["", *headed(title, "-", width), *lines]


def set_headline(planned: PlannedSet) -> str:
    """How many cables and settings, and what is proved of them."""
    said = set_cost_words(planned.best)
    return f"{said} Stopped early." if planned.stopped else said


def set_cost_words(plan: SetPlan) -> str:
    """What a set's plan costs, and what is proved of it."""
    goals, proof = plan.goals, plan.proof
    assert goals is not None
    cables = counted(goals.cables, "cable")
    settings = f"{counted(goals.settings_moved, 'setting')} to move"
    if goals.silenced:
        settings += f" ({goals.silenced} of them a level turned down to zero)"
    hands = f"{counted(goals.by_hand, 'setting')} to move by hand between jams"
    proved = ("", ", proved the fewest")
    fewest = proved[proof.get("cables", False)]
    said = f"{cables}{fewest}; {hands}, {settings}{proved[proof.get('settings_moved', False)]}."
    return f"{said[0].upper()}{said[1:]}"


def _order(asked: JamSet, width: int) -> list[str]:
    names = ", ".join(asked.names.values())
    return wrap(f"{counted(len(asked.jams), 'jam')} on one wiring, in this order: {names}.", width)


def _cables(asked: JamSet, plan: SetPlan, width: int) -> list[str]:
    """The cables in plugging order, each with the parts that it carries in each jam, by the jams' numbers."""
    if not plan.cables:
        return ["No cable to plug."]
    return table((*CABLE_HEADERS[:-1], "carries, by jam"), set_cable_rows(asked, plan), width)


def set_cable_rows(asked: JamSet, plan: SetPlan) -> list[tuple[str, ...]]:
    """Of each cable: its number and kind, from where, to where, and what it carries in which jam."""
    loads = [carried(jam, plan.jams[file]) for file, jam in asked.jams.items()]
    return [
        (
            str(number),
            cable.kind,
            end_words(cable.source),
            end_words(cable.to),
            "; ".join(f"{jam} {', '.join(parts)}" for jam, parts in enumerate(load, start=asked.first) if parts),
        )
        for number, (cable, load) in enumerate(zip(plan.cables, zip(*loads, strict=True), strict=True), start=1)
    ]


def _jam(jam: Jam, plan: Plan, between: Between | None, width: int) -> list[str]:
    """What is done before a jam, and all that is its own."""
    lines = wrap(frame(jam), width)
    if between is not None:
        lines += ["", "Before it:", *_between(between, plan, width)]
    for title, section in (
        ("Settings of its own:", stored_section([jam], [plan], "project", width)),
        ("Parts:", parts_section(jam, plan, width)),
        ("Engines to keep silent:", silence_section(jam, plan, width, ["project"])),
        ("Sounds to prepare:", sounds_section(jam, plan, width)),
    ):
        lines += ["", title, *section]
    if plan.cautions:
        lines += ["", "Cautions:", *points(plan.cautions, width)]
    return lines


def _between(between: Between, plan: Plan, width: int) -> list[str]:
    """Projects to recall, then what hands move, then what comes with the projects."""
    hands = [change for change in between.changes if change.by == "hand"]
    others = [change for change in between.changes if change.by == "project"]
    lines = points((recall_words(plan, box, slot) for box, slot in between.recall.items()), width)
    lines += points((f"Recall this jam's project on {box}, too: {NO_SLOT}." for box in between.unnamed), width)
    if hands:
        lines += ["By hand:", *table(("where", "what", "move"), _rows(hands), width)]
    else:
        lines += points(["Nothing to move by hand."], width)
    if others:
        lines += ["What comes with the projects:", *table(("where", "what", "change"), _rows(others), width)]
    return lines


def _rows(changes: list[Change]) -> Iterator[tuple[str, str, str]]:
    for change in changes:
        where = f"{change.of} {Spot(change.box, change.where)}"
        yield where, change.what, " -> ".join(change_words_of(change))


def change_words_of(change: Change) -> tuple[str, str]:
    """The old value of a setting and the new one."""

    def said(value: str | int) -> str:
        if change.what == "shift":
            return shift_words(value) if value else "none"
        return f"{value}{NO_BREAK}%" if isinstance(value, int) and change.what != "channel" else str(value)

    return said(change.was), said(change.value)
