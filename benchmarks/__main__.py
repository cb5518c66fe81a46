"""``python -m benchmarks [--quick] [--out FOLDER]``."""

import json
from pathlib import Path
from tempfile import TemporaryDirectory

import click

from benchmarks.plot import plot
from benchmarks.report import report
from benchmarks.run import ROOT, measure


@click.command()
@click.option(
    "--quick", is_flag=True, help="Only small sizes, one round each; nothing is written unless --out says so."
)
@click.option(
    "--out", type=click.Path(path_type=Path, file_okay=False), help="Where performance.md goes (docs/reference)."
)
def main(quick: bool, out: Path | None) -> None:
    """Measure hardpan and other ways to plan, and write what was found."""
    with TemporaryDirectory() as folder:
        found = measure(Path(folder), quick)
    text = report(found)
    target = out if out is not None or quick else ROOT / "docs" / "reference"
    if target is None:
        click.echo(text)
        return
    target.mkdir(parents=True, exist_ok=True)
    (target / "performance.md").write_text(text, "utf-8")
    (target / "performance.svg").write_text(plot(found), "utf-8")
    (target / "performance.json").write_text(json.dumps(found, indent=1) + "\n", "utf-8")


if __name__ == "__main__":
    main(prog_name="python -m benchmarks")
