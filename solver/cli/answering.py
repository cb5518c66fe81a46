"""How every command answers: one text or one JSON document on standard output, and an exit status."""

import os
import shutil
import sys
import traceback
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, NoReturn

import click

from solver.cli.exits import STOPPED_EARLY, Exit
from solver.cli.saving import SaveError
from solver.codes import Code
from solver.documents import json_text
from solver.jam.jam import Jam
from solver.jam.sets import JamSet
from solver.outcome import Impossible, InternalError, Outcome, Planned, PlannedSet, SetOutcome, Undecided
from solver.reading import BadInput
from solver.sheet.answers import impossible_text, undecided_text
from solver.sheet.text import NARROWEST, WIDEST, breach_text

if TYPE_CHECKING:
    from solver.checking import Breach

WRONG_PLAN = (
    "Sorry, hardpan made a mistake: the plan it found does not pass its own check, so it is not shown. "
    f"[{Code.WRONG_PLAN}]",
    "Please send the makers of hardpan the lines below, your jam file and its box files.",
)
OTHER_MISTAKE = (
    f"Sorry, hardpan made a mistake and cannot go on. [{Code.OWN_MISTAKE}]",
    "Please send the makers of hardpan the lines below and the files you gave it.",
)


class Answer:
    """The one answer of a command."""

    def __init__(self, as_json: bool) -> None:
        self._as_json = as_json
        self._given = False

    def give(self, text: Callable[[], str], data: Callable[[], Any]) -> None:
        """Write the answer on standard output, as text or as a JSON document."""
        written = json_text(data()) if self._as_json else text()
        self._given = True
        _write(written)

    def give_up(self, status: str, problems: list[str], codes: list[Code], end: Exit) -> NoReturn:
        """Name the problems on standard error, and in a JSON document where one is due; then leave.

        Args:
            status: What the document says of itself.
            problems: A text for each problem.
            codes: The code of each.
            end: The exit status.
        """
        complain(problems)
        if self._as_json and not self._given:
            self.give(str, lambda: {"status": status, "problems": problems, "codes": codes})
        leave(end)


@contextmanager
def answering(as_json: bool) -> Iterator[Answer]:
    """Turn what goes wrong inside into plain words on standard error and an exit status.

    Args:
        as_json: whether standard output gets one JSON document, in these cases too.
    """
    answer = Answer(as_json)
    try:
        yield answer
    except (click.ClickException, click.exceptions.Exit, click.Abort):
        raise
    except BadInput as error:
        codes = [problem.code for problem in error.problems]
        answer.give_up("bad input", [str(problem) for problem in error.problems], codes, Exit.BAD_INPUT)
    except SaveError as error:
        answer.give_up("bad input", [str(error)], [error.code], Exit.BAD_INPUT)
    except KeyboardInterrupt:
        answer.give_up("undecided", [STOPPED_EARLY], [Code.UNDECIDED], Exit.UNDECIDED)
    except InternalError as error:
        complain(WRONG_PLAN)
        answer.give_up("internal error", str(error).splitlines(), [Code.WRONG_PLAN], Exit.OWN_MISTAKE)
    except Exception as error:
        complain([*OTHER_MISTAKE, traceback.format_exc().rstrip()])
        answer.give_up("internal error", [f"{type(error).__name__}: {error}"], [Code.OWN_MISTAKE], Exit.OWN_MISTAKE)


def give_impossible(answer: Answer, jam: Jam | JamSet, file: str) -> None:
    """Say that nothing meets every wish."""
    answer.give(
        lambda: impossible_text(jam.title, file, line_width()), lambda: {"title": jam.title, "status": "impossible"}
    )


def give_undecided(answer: Answer, jam: Jam | JamSet, undecided: Undecided) -> None:
    """Say that neither a plan nor a proof was found."""
    answer.give(
        lambda: undecided_text(jam.title, line_width(), undecided.stopped),
        lambda: {"title": jam.title, "status": "undecided"},
    )


def give_breaches(
    answer: Answer, jam: Jam | JamSet, breaches: Sequence["Breach"], notes: Sequence[str], well: str
) -> None:
    """Say which rules a plan breaks, or that all is well."""
    answer.give(
        lambda: breach_text(breaches) or well,
        lambda: {
            "title": jam.title,
            "status": "broken" if breaches else "well",
            "breaches": [{"rule": rule, "sentence": sentence, "where": where} for rule, sentence, where in breaches],
            "notes": list(notes),
        },
    )


def status_of(outcome: Outcome | SetOutcome) -> Exit:
    """The exit status of a command that asks for a plan."""
    if isinstance(outcome, Planned | PlannedSet):
        return Exit.WELL
    return Exit.FAILED if isinstance(outcome, Impossible) else Exit.UNDECIDED


def leave(code: Exit) -> NoReturn:
    """End the command with an exit status."""
    raise click.exceptions.Exit(int(code))


def complain(lines: Iterable[str]) -> None:
    """Write lines on standard error."""
    for line in lines:
        click.echo(line, err=True)


def _write(text: str) -> None:
    """Write on standard output, if there is one: UTF-8 with line feeds, whatever the locale is."""
    if sys.stdout is None:
        return
    try:
        sys.stdout.flush()
        sys.stdout.buffer.write(text.encode("utf-8", errors="backslashreplace"))
        sys.stdout.buffer.flush()
    except OSError as error:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        if not isinstance(error, BrokenPipeError):  # there, the reader has seen enough and the status tells the rest
            complain([f"The answer cannot be written: {error.strerror}."])
            leave(Exit.BAD_INPUT)


def line_width() -> int:
    """Cells a line: what the terminal has, within reason; the narrowest where the text goes elsewhere."""
    if sys.stdout is None or not sys.stdout.isatty():
        return NARROWEST
    return min(max(shutil.get_terminal_size((NARROWEST, 24)).columns, NARROWEST), WIDEST)
