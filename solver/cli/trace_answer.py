"""What ``hardpan trace`` answers."""

from pathlib import Path

from solver.cli.answering import answering, leave, line_width
from solver.cli.exits import Exit
from solver.flow.trace import trace
from solver.gear.box_faults import one_of
from solver.gear.words import quoted
from solver.jam.jam import Jam
from solver.reading import BadInput, Problem, read_jam, read_plan
from solver.reading.problems import nearest
from solver.sheet.trace import trace_text
from solver.sheet.trace_data import trace_data


def answer(file: Path, plan: Path, part: str, as_json: bool) -> None:
    """Answer what ``hardpan trace`` asks."""
    with answering(as_json) as given:
        jam = read_jam(file)
        _refuse_unknown(jam, part)
        found = trace(jam, read_plan(plan, jam), part)
        given.give(lambda: trace_text(jam, found, line_width()), lambda: trace_data(jam, found))
        leave(Exit.WELL if found.heard else Exit.FAILED)


def _refuse_unknown(jam: Jam, part: str) -> None:
    known = tuple(jam.parts)
    if part not in known:
        allowed = one_of(known, "a part of this jam")
        raise BadInput([Problem("PART", None, "", quoted(part), allowed, nearest(part, known))])
