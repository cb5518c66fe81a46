"""``hardpan new``: a jam file by questions, and its plan."""

from functools import partial
from pathlib import Path

import click

from solver.cli import completing
from solver.cli.answering import answering, complain, leave
from solver.cli.exits import Exit
from solver.cli.found_boxes import FoundBoxes, notes_of_shipped
from solver.cli.interview import at_a_terminal, replies_to, typed_target
from solver.cli.options import example
from solver.cli.plan import command as plan
from solver.cli.saving import SaveError, new_target_of, save
from solver.codes import Code
from solver.making.given import given_for_jam
from solver.making.jam_file import files_of, from_there, jam_of, jam_text
from solver.making.jam_questions import AtHand, jam_interview
from solver.making.questions import NotSoError
from solver.schemas import schema_file


@click.command(
    name="new",
    epilog=example("hardpan new mine.toml --box a=scenarios/boxes/tiller.toml --part kick --yes"),
)
@click.argument("file", required=False, type=click.Path(path_type=Path))
@click.option("--title", metavar="NAME", help="What the jam is called.")
@click.option(
    "--box",
    "boxes",
    metavar="NAME=FILE",
    multiple=True,
    help="A box on the table, by its file or the name of one at hand.",
    shell_complete=completing.named_boxes,
)
@click.option("--leader", metavar="BOX", help="Who plays the parts and runs the clock.")
@click.option("--listen", metavar="BOX/OUTLET", help="Where your ears are.")
@click.option("--tempo", metavar="BEATS", help="Quarter notes a minute.")
@click.option("--mains", metavar="MAINS", help="What the loudspeakers play: stereo or mono.")
@click.option("--part", "parts", metavar="PART[=PLACE]", multiple=True, help="A part, and its box or BOX/ENGINE.")
@click.option("--sound", "sounds", metavar="PART=KIND", multiple=True, help="The kind of sound that a part has.")
@click.option("--layer", "layers", metavar="PART,PART", multiple=True, help="Parts that one track plays together.")
@click.option(
    "--treat",
    "treats",
    metavar="WISH",
    multiple=True,
    help="Effects of some parts, in percent: 'arp, pad: ducking 20 key kick, reverb 30'.",
)
@click.option("--clock", "clocked", metavar="BOX", multiple=True, help="A box that follows the leader's clock.")
@click.option(
    "--drawer",
    "cables",
    metavar="KIND=N",
    multiple=True,
    help="How many cables of a kind are in the drawer, such as din=2.",
    shell_complete=completing.cables,
)
@click.option("--yes", is_flag=True, help="Ask nothing: take the default of what is not given.")
@click.option("--force", is_flag=True, help="Replace a file that is there already.")
@click.option("--no-plan", is_flag=True, help="Only write the file.")
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
@click.pass_context
def command(  # noqa: PLR0917  one argument an option
    ctx: click.Context,
    file: Path | None,
    title: str | None,
    boxes: tuple[str, ...],
    leader: str | None,
    listen: str | None,
    tempo: str | None,
    mains: str | None,
    parts: tuple[str, ...],
    sounds: tuple[str, ...],
    layers: tuple[str, ...],
    treats: tuple[str, ...],
    clocked: tuple[str, ...],
    cables: tuple[str, ...],
    yes: bool,
    force: bool,
    no_plan: bool,
    as_json: bool,
) -> None:
    """Make a jam file by questions and write it to FILE, then plan it.

    Every answer is an option as well. What is given is not asked; without a terminal nothing is asked at all. In a
    list, a name with a comma, a colon or = in it goes in double quotes.
    """
    with answering(as_json) as answer:
        asking = at_a_terminal() and not yes
        if not asking:
            _refuse_missing({"--box": boxes, "--part": parts})
        file = None if file is None else new_target_of(file, force)
        single = {"title": title, "leader": leader, "listen": listen, "tempo": tempo, "mains": mains}
        try:
            given = given_for_jam(
                single=single,
                boxes=boxes,
                parts=parts,
                sounds=sounds,
                layers=layers,
                treats=treats,
                clocked=clocked,
                cables=cables,
            )
        except NotSoError as error:
            raise click.UsageError(str(error)) from None
        found = FoundBoxes(Path() if file is None else file.parent)
        at_hand = AtHand(tuple(found.choices()) if asking else (), found.read, partial(typed_target, force=force), file)
        replies = replies_to(partial(jam_interview, at_hand), given, asking)
        written = new_target_of(file or replies["file"], force)
        files = files_of(replies)
        if any(used.resolve() == written.resolve() for used in files.values()):
            said = f"{written}: is a box file of this jam, and stays as it is. Name another."
            raise SaveError(Code.WOULD_BE_LOST, said)
        jam, folder = jam_of(replies), written.resolve().parent
        near = {name: from_there(used, folder) for name, used in files.items()}
        save(written.resolve(), jam_text(jam, near, from_there(schema_file("jam"), folder)))
        complain(notes_of_shipped(files))
        if no_plan:
            words = f"Wrote {written}.\nNext: hardpan plan {written}\n"
            answer.give(lambda: words, lambda: {"title": jam.title, "file": str(written)})
            leave(Exit.WELL)
    complain([f"Wrote {written}."])
    ctx.invoke(plan, file=written, as_json=as_json)


def _refuse_missing(needed: dict[str, tuple[str, ...]]) -> None:
    missing = [option for option, values in needed.items() if not values]
    if missing:
        are = "is" if len(missing) == 1 else "are"
        raise click.UsageError(f"{' and '.join(missing)} {are} missing, and nobody is asked.")
