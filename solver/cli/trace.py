"""``hardpan trace``: one part of a plan, from its track to the ears."""

from __future__ import annotations

from pathlib import Path

import click

from solver.cli import completing
from solver.cli.options import example


@click.command(name="trace", epilog=example("hardpan trace scenarios/low-tide.toml docs/by-hand.json arp"))
@click.argument("file", type=click.Path(path_type=Path))
@click.argument("plan", type=click.Path(path_type=Path))
@click.argument("part", shell_complete=completing.parts)
@click.option("--in", "inside", metavar="JAM", help="Of a set: the jam that the part is of.")
@click.option("--json", "as_json", is_flag=True, help="Answer with one JSON document.")
def command(file: Path, plan: Path, part: str, inside: str | None, as_json: bool) -> None:
    """Follow PART through the plan in PLAN for the jam or set in FILE, from its track to your ears, with its levels.

    Where it goes silent, the answer says at which point and why, and the exit status is 1.
    """
    from solver.cli.trace_answer import answer  # noqa: PLC0415  completion needs no rig

    answer(file, plan, part, inside, as_json)
