"""The patch sheet as Markdown: steps as task lists and tables, with every name escaped."""

import re
from collections.abc import Iterable, Iterator, Sequence

from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.cells import clean
from solver.sheet.formats import MARKDOWN_MARK
from solver.sheet.recall import RECALL_HEADERS, recall_rows
from solver.sheet.sections import PART_HEADERS, SAFETY, TIMED, TIMING_HEADERS, part_rows, timing_rows
from solver.sheet.step import Group, plain
from solver.sheet.steps import groups
from solver.sheet.text import cost_words, frame

_SIGNS = re.compile(r"[\\`*_{}\[\]<#|~&@$^]|:(?=//|[\w+-]+:)|(?<=www)\.|^[->+=](?=.)|^\d+[.)]", re.IGNORECASE)
"""What could be read as more than a letter, also by readers that know tables, strokes, pictures and bare links."""


def markdown(jam: Jam, plan: Plan) -> str:
    """The sheet of a plan that has been completed."""
    lines = [MARKDOWN_MARK, "", f"# {escaped(plan.title)}", "", escaped(cost_words(plan)), "", escaped(frame(jam))]
    for group in groups(jam, plan):
        lines += ["", f"## {escaped(plain(group.title))}", "", *_group(group)]
    lines += ["", "## Parts", "", *_table(PART_HEADERS, part_rows(jam, plan))]
    lines += ["", "## Names on the boxes", "", *_table(RECALL_HEADERS, recall_rows(jam, plan))]
    timing = timing_rows(plan)
    if timing:
        lines += ["", "## MIDI timing", "", *_table(TIMING_HEADERS, timing), "", escaped(TIMED)]
    lines += ["", "## Cautions", "", *(f"- {escaped(caution)}" for caution in (*plan.cautions, *SAFETY))]
    return "\n".join(lines) + "\n"


def escaped(text: str) -> str:
    """One line of text that Markdown shows as it is."""
    return _SIGNS.sub(lambda found: f"{found[0][:-1]}\\{found[0][-1]}", clean(text))


def _group(group: Group) -> Iterator[str]:
    if group.headers:
        yield from _table(("done", *group.headers), (("☐", *step.cells) for step in group.steps))
        return
    for step in group.steps:
        note = f" ({escaped(plain(step.note))})" if step.note else ""
        yield f"- [ ] {escaped(plain(step.does))}{note}"


def _table(headers: Sequence[str], rows: Iterable[Sequence[str]]) -> Iterator[str]:
    yield f"| {' | '.join(headers)} |"
    yield f"|{' --- |' * len(headers)}"
    for row in rows:
        yield f"| {' | '.join(map(escaped, row))} |"
