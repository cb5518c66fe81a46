"""Why a plan is as it is, as plain text."""

from __future__ import annotations

from collections.abc import Mapping

from solver.flow.settings import goals_of
from solver.flow.wording import counted
from solver.jam.jam import Jam
from solver.reasons.explained import Fewer, Instead
from solver.reasons.whys import Why, WhyPossible
from solver.sheet.cells import wrap
from solver.sheet.differences import alternative_section
from solver.sheet.edits import Source
from solver.sheet.explaining import headline, rows_text, sentence
from solver.sheet.text import compared

_SAID: Mapping[str, str] = {
    "stated": "Forced: {without}, these cannot all be had.",
    "cables": "Needed for the fewest cables: {without}, these take one more.",
    "settings": "Chosen for the fewest settings: {without}, {says}.",
    "tidy": "A free choice: another would do as well; this one comes first in the files.",
    "time": "Not decided in the time given.",
}


def whys_text(jam: Jam, why: WhyPossible, source: Source, width: int) -> str:
    """Tell of each cable, channel, pan and level why it is so."""
    cost = goals_of(why.planned.best)
    count = f"{counted(cost.cables, 'cable')} and {counted(cost.settings_moved, 'setting')} to move"
    text = wrap(f"{jam.title} can be had, with {count}.{' Why each of them is so:' if why.whys else ''}", width)
    for number, one in enumerate(why.whys, start=1):
        text += ["", *_why(jam, one, number, source, width)]
    following = f"Next: hardpan explain {source.shell} --fewer tells why fewer cables would not do."
    return _joined([*text, "", *wrap(following, width)])


def fewer_text(jam: Jam, fewer: Fewer, source: Source, width: int) -> str:
    """Tell why one cable less would not do."""
    cables, conflict = goals_of(fewer.planned.best).cables, fewer.conflict
    if conflict is None:
        return _joined(wrap(f"{jam.title} needs no cable at all.", width))
    told = (
        f"{counted(cables - 1, 'cable')} would not do for {jam.title}, proved twice: these lines alone need {cables}."
    )
    need = "Every one of them is needed for that."
    if not conflict.minimal:
        need = "The time was too short to show that every one of them is needed for that."
    text = wrap(told, width)
    return _joined([*text, *rows_text(jam, conflict.claims, (), source, width), *wrap(need, width)])


def instead_text(jam: Jam, asked: str, instead: Instead, source: Source, width: int) -> str:
    """Tell what becomes of the plan when one more thing is asked."""
    if instead.clash is not None:
        title = headline(jam, instead.clash)
        facts = [fact.sentence for fact in instead.clash.facts if fact.sentence not in title]
        text = wrap(f"Impossible, proved, with {asked}: {sentence(jam, title)}.", width)
        shown = "" if instead.clash.conflict.minimal else "Perhaps not all of these lines are needed; the time was up."
        rows = rows_text(jam, instead.clash.conflict.claims, facts, source, width)
        return _joined([*text, *rows, *(wrap(shown, width) if shown else [])])
    assert instead.after is not None
    before, after = instead.before.best, instead.after.best
    had, has = goals_of(before), goals_of(after)
    if before == after:
        return _joined(wrap(f"With {asked}, the plan is the same.", width))
    tie = (had.cables, had.silenced, had.settings_moved) == (has.cables, has.silenced, has.settings_moved)
    said = "a tie: as good a plan, which comes later in the files" if tie else compared(before, after).rstrip(".")
    text = wrap(f"Possible with {asked}: {said}.", width)
    return _joined([*text, *alternative_section(instead.jam, before, after, width)])


def _why(jam: Jam, one: Why, number: int, source: Source, width: int) -> list[str]:
    text = wrap(f"{sentence(jam, one.what)}.", width, f"{number}. ", "   ")
    if one.because == "notes":
        return [*text, *wrap(f"{one.says[0].upper()}{one.says[1:]}.", width, "   ", "   ")]
    gear = [fact.sentence for fact in one.facts]
    told = _SAID[one.because].format(without=one.without, says=one.says)
    return [*text, *wrap(told, width, "   ", "   "), *rows_text(jam, one.claims, gear, source, width)]


def _joined(lines: list[str]) -> str:
    return "".join(f"{line}\n" for line in lines)
