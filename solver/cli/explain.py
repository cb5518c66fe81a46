"""``hardpan explain``: why a jam or set is impossible and what the ways out are, or why its plan is as it is."""

from pathlib import Path

import click

from solver.cli.options import example, seconds


@click.command(name="explain", epilog=example("hardpan explain scenarios/impossible/lost-lead.toml", 1))
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
@click.option("--all", "every", is_flag=True, help="List every conflict, however long that takes.")
@click.option("--repair", "number", metavar="N", type=click.IntRange(min=1), help="Show the plan with way out N.")
@click.option("--fewer", "why_fewer", is_flag=True, help="Say why one cable less would not do.")
@click.option("--why-not", "wish", metavar="TOML", help="Ask for one keep or avoid more, such as 'keep = {...}'.")
@click.option(
    "--time-limit", metavar="SECONDS", type=float, default=60.0, callback=seconds, help="Stop then (60 by default)."
)
def command(  # noqa: PLR0917  one argument an option
    file: Path, as_json: bool, every: bool, number: int | None, why_fewer: bool, wish: str | None, time_limit: float
) -> None:
    """Say why the jam or set in FILE is impossible and what the ways out are, or why its plan is as it is."""
    from solver.cli.explain_answer import answer  # noqa: PLC0415  help and completion need no solver

    answer(
        file,
        as_json=as_json,
        every=every,
        number=number,
        why_fewer=why_fewer,
        wish=wish,
        time_limit=time_limit,
    )
