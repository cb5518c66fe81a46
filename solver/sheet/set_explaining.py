"""Why the jams of a set cannot share a wiring and what the ways out are, or which jams need which cable."""

from __future__ import annotations

import shlex
from collections.abc import Callable, Sequence
from pathlib import PurePath
from typing import Any, NamedTuple

from solver.flow.wording import counted, listing
from solver.jam.claims import Claim
from solver.jam.sets import JamSet
from solver.reasons.replugs import Replug
from solver.reasons.set_reasons import JamClash, Needed, WhySetImpossible, WhySetPossible
from solver.reasons.set_repairs import SetRepair
from solver.set_plans import SetGoals
from solver.sheet.cells import wrap
from solver.sheet.claims import said
from solver.sheet.differences import cable_lines, laid_out, setting_lines
from solver.sheet.edits import Source, edit_text
from solver.sheet.explaining import headline, laid_rows, rows_of, sentence

Lines = Callable[[str], Callable[[tuple[str | int, ...]], int | None]]


class SetSource(NamedTuple):
    """The set file, and the sources of its jams by the names that it has for them."""

    file: str
    jams: dict[str, Source]

    @property
    def shell(self) -> str:
        """The path as a command line takes it."""
        return shlex.quote(self.file)


def set_explained_text(asked: JamSet, why: WhySetImpossible, source: SetSource, width: int) -> str:
    """Tell which jams clash and why, then the ways out."""
    text = wrap(f"Impossible, proved: no one wiring serves all jams of {asked.title}.", width)
    for number, one in enumerate(why.clashes, start=1):
        text += ["", *clash_lines(asked, one, source, width, f"{number}. ")]
    if why.all:
        others = "There are no other jams that cannot share a wiring."
    else:
        others = f"There may be others. Give it more: hardpan explain {source.shell} --all --time-limit 600"
    text += ["", *wrap(others, width), "", *_ways_out(asked, why, source, width)]
    return "".join(f"{line}\n" for line in text)


def titles(asked: JamSet, files: Sequence[str]) -> str:
    """Jams with their places in the set."""
    return listing(asked.names[file] for file in files)


def clash_lines(asked: JamSet, one: JamClash, source: SetSource, width: int, lead: str = "") -> list[str]:
    """Jams that clash behind a lead, and their lines."""
    alone = len(one.files) == 1
    said = f"{titles(asked, one.files)} {'is impossible even alone' if alone else 'cannot share one wiring'}"
    if one.clash is None:
        text = wrap(f"{said}, proved.", width, lead or "   ", "   ")
        return [*text, *wrap("The time was too short to find out which lines these are.", width, "   ", "   ")]
    fact = headline(asked.jams[one.files[0]], one.clash) if alone or one.clash.facts else ""
    text = wrap(f"{said}{f': {fact}' if fact else ''}.", width, lead or "   ", "   ")
    rows = [row for file in one.files for row in rows_of(asked.jams[file], _own(one, file), source.jams[file])]
    rows += [("gear", found.sentence) for found in one.clash.facts if found.sentence not in fact]
    proof = "Proved twice. Without any one of your lines above, the others can be had together."
    if not one.clash.conflict.minimal:
        proof = "Proved twice. The time was too short to show that every line above is needed."
    return [*text, *laid_rows(rows, width), *wrap(proof, width, "   ", "   ")]


def _own(one: JamClash, file: str) -> list[Claim]:
    return [] if one.clash is None else [claim for claim in one.clash.conflict.claims if claim.jam == file]


def _ways_out(asked: JamSet, why: WhySetImpossible, source: SetSource, width: int) -> list[str]:
    if not why.repaired.repairs:
        when = "" if why.repaired.done else " in the time given"
        return wrap(f"No way out was found{when} among the changes that hardpan knows.", width)
    text = ["Ways out that are one change, cheapest first"]
    for number, repair in enumerate(why.repaired.repairs, start=1):
        text += repair_lines(asked, repair, source, width, f"{number}. ")
    if not why.repaired.done:
        text += ["", *wrap("There was no time to try all of them.", width)]
    return [*text, "", *wrap(f"Next: hardpan explain {source.shell} --repair 1 shows the plan with the first.", width)]


def repair_lines(asked: JamSet, repair: SetRepair, source: SetSource, width: int, lead: str = "") -> list[str]:
    """A way out behind a lead: what to do, where, and what comes of it."""
    said, lines, end = _told(asked, repair, source)
    text = wrap(f"{said}.", width, lead or "   ", "   ")
    for line in lines:
        text += wrap(line, width, "   ", "     ")
    if repair.replug is not None:
        text += [f" {line}" for line in _replug_lines(repair.replug, width - 1)]
    return [*text, *wrap(f"Cost {repair.cost}; {end}.", width, "   ", "   ")]


def replug_text(asked: JamSet, replug: Replug, halves: Sequence[str], width: int) -> str:
    """The plans on either side of a re-plug, and between them what hands do."""
    first = list(asked.files)[replug.turn]
    lines = ["", *wrap(f"Before {titles(asked, [first])}:", width), *_replug_lines(replug, width), ""]
    return "\n".join((halves[0] + "\n".join(lines), halves[1]))


def _replug_lines(replug: Replug, width: int) -> list[str]:
    """Plugs to move, and settings that boxes store and that are others afterwards."""
    return laid_out([*cable_lines(replug.difference), *setting_lines(replug.difference)], width)


def _told(asked: JamSet, repair: SetRepair, source: SetSource) -> tuple[str, list[str], str]:
    """What to do, where in the files, and what comes of it."""
    end = f"planned with {counted(_goals(repair).cables, 'cable')}"
    if repair.replug is not None:
        turn, files = repair.replug.turn, list(asked.files)
        before, after = (len(plan.best.cables) for plan in (repair.replug.before, repair.replug.after))
        where = f"{titles(asked, [files[turn - 1]])} and {titles(asked, [files[turn]])}"
        end = f"{counted(before, 'cable')} before, {counted(after, 'cable')} after"
        return f"Re-plug between {where}, the place where the fewest plugs were found to move", [], end
    if repair.edit is not None:
        of = "" if repair.edit.path[0] == "boxes" else f" in {titles(asked, [repair.file])}"
        text = edit_text(repair.edit, source.jams[repair.file])
        return f"{sentence(asked.jams[repair.file], repair.edit.says)}{of}", [text], end
    if repair.by_hand:
        count = counted(_goals(repair).by_hand, "setting")
        return f"What {repair.by_hand} stores for itself moved by hand between jams: {count} in all", [], end
    where = PurePath(source.file).name
    return f"Leave out {titles(asked, repair.left_out)}", [f"{where}: without {listing(repair.left_out)} in jams"], end


def _goals(repair: SetRepair) -> SetGoals:
    planned = repair.planned or (repair.replug and repair.replug.after)
    assert planned is not None and planned.best.goals is not None
    return planned.best.goals


_BECAUSE = {
    "alone": "Forced by {jams}.",
    "together": "Forced by {jams} together: without it, one wiring does not serve them.",
    "cables": "Needed for the fewest cables: without it, the jams take one more.",
    "tidy": "A free choice: another would do as well; this one comes first in the files.",
    "time": "Not decided in the time given.",
}


def set_whys_text(asked: JamSet, why: WhySetPossible, source: SetSource, width: int) -> str:
    """Tell of each cable which jams need it, and why fewer cables would not do."""
    goals = why.planned.best.goals
    assert goals is not None
    cables = counted(goals.cables, "cable")
    text = wrap(f"{asked.title} can be had, with {cables} for all jams. Why each of them is so:", width)
    for number, one in enumerate(why.needed, start=1):
        text += ["", *wrap(f"{one.cable[0].upper()}{one.cable[1:]}.", width, f"{number}. ", "   ")]
        text += wrap(_BECAUSE[one.because].format(jams=titles(asked, one.files)), width, "   ", "   ")
    if why.fewest is not None:
        few = f"{titles(asked, why.fewest)} alone {'need' if len(why.fewest) > 1 else 'needs'} as many"
        text += ["", *wrap(f"Fewer cables would not do: {few}.", width)]
    file = next(iter(source.jams.values())).shell
    text += ["", *wrap(f"Next: hardpan explain {file} tells of one jam which lines need its cables.", width)]
    return "".join(f"{line}\n" for line in text)


def set_explained_data(asked: JamSet, why: WhySetImpossible, source: SetSource) -> dict[str, Any]:
    """The same as JSON data."""
    return {
        "title": asked.title,
        "possible": False,
        "conflicts": [_clash_data(asked, one) for one in why.clashes],
        "all": why.all,
        "repairs": [_repair_data(asked, repair, source) for repair in why.repaired.repairs],
        "all_repairs": why.repaired.done,
    }


def _clash_data(asked: JamSet, one: JamClash) -> dict[str, Any]:
    if one.clash is None:
        return {"jams": list(one.files), "statements": [], "facts": [], "minimal": False, "says": []}
    claims = one.clash.conflict.claims
    there = [claim.parts[0] for claim in claims if claim.piece[0] == "part"]
    return {
        "jams": list(one.files),
        "statements": list(one.clash.conflict.statements),
        "facts": [fact.sentence for fact in one.clash.facts],
        "minimal": one.clash.conflict.minimal,
        "says": [str(said(asked.jams[claim.jam], claim, there)) for claim in claims],
    }


def _repair_data(asked: JamSet, repair: SetRepair, source: SetSource) -> dict[str, Any]:
    what, lines, _ = _told(asked, repair, source)
    edit = repair.edit
    dropped = [f"{repair.file}:{edit.statement}"] if edit is not None and edit.drops else []
    data: dict[str, Any] = {
        "drop": [*repair.left_out, *dropped],
        "add": [what] if not repair.left_out and not dropped else [],
        "cost": repair.cost,
        "cables": _goals(repair).cables,
        "edits": lines,
    }
    return data if repair.replug is None else data | {"replug": _replug_data(asked, repair.replug)}


def _replug_data(asked: JamSet, replug: Replug) -> dict[str, Any]:
    return {
        "before": list(asked.files)[replug.turn],
        "steps": [line.strip() for line in _replug_lines(replug, 10_000)],
    }


def set_whys_data(asked: JamSet, why: WhySetPossible) -> dict[str, Any]:
    """The same as JSON data."""
    goals = why.planned.best.goals
    assert goals is not None

    def need(one: Needed) -> dict[str, Any]:
        return {"what": one.cable, "because": one.because, "jams": list(one.files)}

    return {
        "title": asked.title,
        "possible": True,
        "conflicts": [],
        "repairs": [],
        "goals": goals.model_dump(),
        "whys": [need(one) for one in why.needed],
        "fewest": list(why.fewest) if why.fewest is not None else None,
    }
