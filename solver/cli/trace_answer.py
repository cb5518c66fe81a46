"""What ``hardpan trace`` answers."""

from pathlib import Path

from solver.cli.answering import answering, leave, line_width
from solver.cli.exits import Exit
from solver.codes import Code
from solver.flow.trace import trace
from solver.gear.box_faults import one_of
from solver.gear.nearest import nearest
from solver.gear.words import quoted
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.reading import BadInput, Problem, read_jam_or_set, read_plan, read_set_plan
from solver.reading.sets import jam_of_set
from solver.sheet.trace import trace_text
from solver.sheet.trace_data import trace_data


def answer(file: Path, plan: Path, part: str, inside: str | None, as_json: bool) -> None:
    """Answer what ``hardpan trace`` asks."""
    with answering(as_json) as given:
        asked = read_jam_or_set(file)
        jam = _one_of(asked, inside)
        _refuse_unknown(jam, part)
        if isinstance(asked, JamSet):
            found = trace(jam, read_set_plan(plan, asked).jams[jam_of_set(asked, "--in", inside or "")], part)
        else:
            found = trace(jam, read_plan(plan, jam), part)
        given.give(lambda: trace_text(jam, found, line_width()), lambda: trace_data(jam, found))
        leave(Exit.WELL if found.heard else Exit.FAILED)


def _one_of(asked: Jam | JamSet, inside: str | None) -> Jam:
    """The jam, or the one of a set that is named."""
    if isinstance(asked, Jam):
        if inside is not None:
            said = "FILE is a jam; --in names a jam of a set"
            raise BadInput([Problem(Code.NOT_FOR_FILE, "--in", None, "", said)])
        return asked
    return asked.jams[jam_of_set(asked, "--in", inside or "")]


def _refuse_unknown(jam: Jam, part: str) -> None:
    known = tuple(jam.parts)
    if part not in known:
        allowed = one_of(known, "a part of this jam")
        raise BadInput([Problem(Code.UNKNOWN_NAME, "PART", None, "", quoted(part), allowed, nearest(part, known))])
