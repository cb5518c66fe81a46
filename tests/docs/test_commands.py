"""docs/reference/commands.md tells every command with its options, example and exit status."""

import re

import click
import pytest

from solver.cli.exits import MEANINGS, Exit
from tests.cli.commands import EACH, Known
from tests.showing import ROOT

PAGE = (ROOT / "docs" / "reference" / "commands.md").read_text("utf-8")
SECTIONS = dict(re.findall(r"^## (.+)\n\n((?:(?!^## ).*\n)*)", PAGE, re.MULTILINE))


def rows(section: str) -> list[list[str]]:
    """The rows of the first table of a section, without its head."""
    lines = [line for line in SECTIONS[section].splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in re.split(r"(?<!\\)\|", line)[1:-1]] for line in lines[2:]]


def test_every_command_has_its_section_and_no_other_has() -> None:
    assert [name for name in SECTIONS if name.startswith("hardpan ")] == [known.line for known in EACH]


@pytest.mark.parametrize("known", EACH, ids=lambda known: known.line)
def test_every_option_is_told_with_its_help(known: Known) -> None:
    options = [param for param in known.command.params if isinstance(param, click.Option)]
    told = {row[0].strip("`"): row[1] for row in rows(known.line)}
    assert told == {" ".join(filter(None, (", ".join(o.opts), o.metavar))): o.help for o in options}


@pytest.mark.parametrize("known", EACH, ids=lambda known: known.line)
def test_every_command_is_told_as_its_help_tells_it(known: Known) -> None:
    section = SECTIONS[known.line]
    arguments = [param for param in known.command.params if isinstance(param, click.Argument)]
    usage = " ".join((known.line, *(a.metavar or str(a.name).upper() for a in arguments)))
    first = str(known.command.help).split("\n\n")[0].replace("\n", " ")
    line, status = known.example
    told = f" (exit status {status})" if status else ""
    assert section.startswith(f"`{usage}`\n\n{first}\n")
    assert section.rstrip().endswith(f"\nExample: `{line}`{told}")


def test_every_exit_status_is_told() -> None:
    assert [(int(row[0]), row[1]) for row in rows("Exit statuses")] == list(MEANINGS.items())
    assert list(MEANINGS) == list(Exit)


def test_completed_values_are_those_of_options() -> None:
    table = SECTIONS["Completion"]
    told = set(re.findall(r"`(--[\w-]+)`", table))
    commands = [known.command for known in EACH if known.words[-1] in ("whatif", "new")]
    assert told <= {option for command in commands for param in command.params for option in param.opts}
