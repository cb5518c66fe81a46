"""``hardpan box new``: a box file by questions, or as a copy of another."""

from functools import partial
from pathlib import Path

import click

from solver.cli import completing
from solver.cli.answering import Answer, answering, leave
from solver.cli.exits import Exit
from solver.cli.found_boxes import FoundBoxes
from solver.cli.interview import at_a_terminal, replies_to, typed_target
from solver.cli.options import example
from solver.cli.saving import SaveError, new_target_of, save
from solver.codes import Code
from solver.making.box_file import box_of
from solver.making.box_questions import Place, box_interview, named
from solver.making.box_text import box_text, copy_text
from solver.making.given import given_for_box
from solver.making.jam_file import from_there
from solver.making.questions import NotSoError
from solver.reading.box_checks import look_over
from solver.reading.files import text_of
from solver.reading.rewriting import RewriteError
from solver.schemas import schema_file
from solver.sheet.boxes import checks_text
from solver.sheet.cells import wrap
from solver.sheet.text import NARROWEST


@click.command(name="new", epilog=example("hardpan box new mine.toml --name Mine --midi in --yes"))
@click.argument("file", required=False, type=click.Path(path_type=Path))
@click.option(
    "--from",
    "source",
    metavar="BOX",
    help="Copy the box file of this name or path, and only rename it.",
    shell_complete=completing.box_files,
)
@click.option("--name", metavar="NAME", help="What the box is called.")
@click.option("--about", metavar="WORDS", help="What it is, in a few words.")
@click.option("--out", "outs", metavar="LABELS", multiple=True, help="A line out: 'L, R', 'OUT', or 'stereo OUT'.")
@click.option("--in", "ins", metavar="LABELS", multiple=True, help="A line in, in the same way.")
@click.option("--engines", metavar="NUMBER", help="How many sounds can be played on their own.")
@click.option("--channels", metavar="HOW", help="How they listen: own, shared, fixed, every or none.")
@click.option("--tracks", metavar="NUMBER", help="How many tracks its sequencer has.")
@click.option(
    "--midi",
    metavar="WAY[=LABEL]",
    multiple=True,
    help="A MIDI socket: in, out, thru, usb-device or usb-host; 'in trs-a=MIDI' for a small plug of type A.",
)
@click.option(
    "--answer",
    "answers",
    metavar="QUESTION=WORDS",
    multiple=True,
    help="Any other answer: 'out.1.plug=3.5', 'stored=channel'; ? at a question shows how it is called.",
)
@click.option("--yes", is_flag=True, help="Ask nothing: take the default of what is not given.")
@click.option("--force", is_flag=True, help="Replace a file that is there already.")
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
def command(  # noqa: PLR0917  one argument an option
    file: Path | None,
    source: str | None,
    name: str | None,
    about: str | None,
    outs: tuple[str, ...],
    ins: tuple[str, ...],
    engines: str | None,
    channels: str | None,
    tracks: str | None,
    midi: tuple[str, ...],
    answers: tuple[str, ...],
    yes: bool,
    force: bool,
    as_json: bool,
) -> None:
    """Make a box file by questions in the words of its back panel, and write it to FILE.

    Without FILE it is named after the box and goes into the folder boxes here, or into this folder where there is
    none. Every answer is an option as well; the file that comes of it can be changed by hand.
    """
    with answering(as_json) as answer:
        asking = at_a_terminal() and not yes
        file = None if file is None else new_target_of(file, force)
        folder = Path("boxes") if Path("boxes").is_dir() else Path()
        place = Place(folder, partial(typed_target, force=force), file)
        single = {"name": name, "about": about, "engines": engines, "engine.channels": channels, "tracks": tracks}
        given = _given(single, outs=outs, ins=ins, midi=midi, answers=answers)
        unknown: tuple[str, ...] = ()
        if source is not None:
            if set(given) - {"name"}:
                raise click.UsageError("--from copies a box as it is; beside it only --name changes anything.")
            replies = replies_to(partial(named, place), given, asking)
            written = file or replies["file"]
            _save(written, force, _copied(source, written, replies["name"]))
        else:
            replies = replies_to(partial(box_interview, place), given, asking)
            written, told = file or replies["file"], box_of(replies)
            unknown = told.unknown
            _save(written, force, box_text(told, _schema_beside(written)))
        _tell(answer, written, replies["name"], unknown)


def _given(single: dict[str, str | None], **listed: tuple[str, ...]) -> dict[str, str]:
    try:
        return given_for_box(single, **listed)
    except NotSoError as error:
        raise click.UsageError(str(error)) from None


def _schema_beside(written: Path) -> str:
    return from_there(schema_file("box"), written.resolve().parent)


def _copied(source: str, written: Path, name: str) -> str:
    """The text of another box file with a new name.

    Raises:
        click.UsageError: there is no such file.
        SaveError: it cannot be renamed, or it is the file to write.
    """
    found = FoundBoxes(Path())
    try:
        original = found.read(source).file
        if original.resolve() == written.resolve():
            raise SaveError(Code.WOULD_BE_LOST, f"{written}: is the file to copy. Name another.")
        return copy_text(text_of(str(original)), name, _schema_beside(written))
    except NotSoError as error:
        raise click.UsageError(f"--from {source!r}: {error}") from None
    except RewriteError as error:
        raise SaveError(Code.LAYOUT, f"{source}: cannot be renamed in its file ({error}).") from None


def _save(written: Path, force: bool, text: str) -> None:
    save(new_target_of(written, force).resolve(), text)


def _tell(answer: Answer, written: Path, name: str, unknown: tuple[str, ...]) -> None:
    looked = look_over(written)
    lines = [f"Wrote {written}. Check it against the labels and the manual in front of you."]
    for socket in unknown:
        said = "is left out, for nobody knows how it is wired. Find out, then add it: docs/reference/formats.md."
        lines += wrap(f"The MIDI socket {socket} {said}", NARROWEST)
    text = "".join(f"{line}\n" for line in lines) + (checks_text([looked]) if looked.doubts else "")
    doubts = [str(doubt) for doubt in looked.doubts]
    answer.give(lambda: text, lambda: {"name": name, "file": str(written), "left_out": list(unknown), "doubts": doubts})
    leave(Exit.WELL)
