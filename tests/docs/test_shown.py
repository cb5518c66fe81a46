"""What the documentation shows is run: commands with their output, files to save, examples of files and code."""

import re
import shutil
from pathlib import Path
from typing import Any, NamedTuple

import pytest

import solver
from solver.outcome import Planned
from solver.reading import read_box, read_jam, read_set
from solver.rules import RULES
from solver.sheet.formats import BOM, FORMATS
from tests.showing import ROOT, SCENARIOS, commands_in

PAGES = sorted([*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md")])
each_page = pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(ROOT).as_posix())
MESSAGES = ROOT / "docs" / "reference" / "messages.md"
FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
LINK = re.compile(r"\[[^\]]+\]\(([^)\s]+)\)")


class Block(NamedTuple):
    """A block between fences."""

    language: str
    text: str


def blocks(page: Path) -> list[Block]:
    return [Block(*found) for found in FENCE.findall(page.read_text("utf-8"))]


def steps(block: Block) -> list[tuple[str, str]]:
    """The commands of a console block, each with the output shown for it."""
    found = re.split(r"^\$ (.*)\n", block.text, flags=re.MULTILINE)
    assert found[0] == "", "a console block begins with a command"
    return list(zip(found[1::2], found[2::2], strict=True))


@each_page
def test_commands_do_what_is_shown(page: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Walk a page from top to bottom: save the files it says to save, run the commands it shows."""
    run = commands_in(tmp_path, monkeypatch)
    for block in blocks(page):
        first = block.text.partition("\n")[0].removeprefix("# ")
        if block.language == "toml" and first.startswith("scenarios/"):
            assert not (ROOT / first).exists(), "an example to save is no file of hardpan's own"
            Path(first).write_text(block.text, "utf-8")
        if block.language == "sh":
            for line in block.text.splitlines():
                for command in line.split(" && "):
                    if command.startswith("hardpan "):
                        assert run(command)[0] == 0
        if block.language == "console":
            for command, shown in steps(block):
                assert run(command)[1] == shown


@each_page
def test_examples_of_files_are_read(page: Path, tmp_path: Path) -> None:
    if page == MESSAGES:
        return  # its files are wrong, and what is said of each of them is run with the commands
    (tmp_path / "boxes").mkdir()
    for box in (SCENARIOS / "boxes").iterdir():
        (tmp_path / "boxes" / box.name).write_bytes(box.read_bytes())
    shutil.copytree(SCENARIOS / "sets", tmp_path / "sets")
    for block in blocks(page):
        if block.language == "toml" and "jams " in block.text:
            (tmp_path / "sets" / "told.toml").write_text(block.text, "utf-8")
            assert read_set(tmp_path / "sets" / "told.toml")
        elif block.language == "toml":
            name = Path(block.text.partition("\n")[0].removeprefix("# ")).name
            is_jam = "leader" in block.text
            file = tmp_path / name if is_jam else tmp_path / "boxes" / name
            file.write_text(block.text, "utf-8")
            assert read_jam(file) if is_jam else read_box(file)


@each_page
def test_links_lead_somewhere(page: Path) -> None:
    for link in LINK.findall(FENCE.sub("", page.read_text("utf-8"))):
        assert ":" not in link, "pages link to files of hardpan alone"
        path, _, heading = link.partition("#")
        target = (page.parent / path) if path else page
        assert target.exists(), link
        if heading:
            headings = re.findall(r"^#+ (.+)$", target.read_text("utf-8"), re.MULTILINE)
            assert heading in {re.sub(r"[^\w -]", "", h).lower().replace(" ", "-") for h in headings}, link


def test_readme_shows_the_two_commands_first() -> None:
    shown = [block.text.strip() for block in blocks(ROOT / "README.md") if block.language == "sh"]
    assert shown[:2] == [
        "python3 -m pip install . && hardpan plan scenarios/low-tide.toml",
        "python3 -m pip install '.[test]' && python3 -m pytest",
    ]


def test_the_rule_of_the_example_works(monkeypatch: pytest.MonkeyPatch) -> None:
    """Run the example's own tests, then plan with the rule added to the list."""
    names: dict[str, Any] = {"__name__": "example"}
    for block in blocks(ROOT / "docs" / "how-to" / "adding-a-rule.md"):
        if block.language == "python":
            exec(compile(block.text, "adding-a-rule.md", "exec"), names)
    names["test_met"]()
    names["test_broken"]()
    rule = names["PhonesFree"]()
    assert rule.id not in {known.id for known in RULES}
    jam = read_jam(SCENARIOS / "narrow-channel.toml")
    before = solver.plan(jam, time_limit=None)
    monkeypatch.setattr("solver.search.planner.RULES", (*RULES, rule))
    monkeypatch.setattr("solver.checking.RULES", (*RULES, rule))
    after = solver.plan(jam, time_limit=None)
    assert isinstance(before, Planned)
    assert isinstance(after, Planned)
    assert (len(before.best.cables), len(after.best.cables)) == (2, 3)
    assert [breach.rule for breach in solver.check(jam, before.best)] == ["A13"]


def test_the_table_that_is_shown_is_exported() -> None:
    (shown,) = [block.text for block in blocks(ROOT / "docs" / "how-to" / "sheet.md") if block.language == "csv"]
    jam = read_jam(SCENARIOS / "tide-tables.toml")
    planned = solver.plan(jam, time_limit=None)
    assert isinstance(planned, Planned)
    assert FORMATS[".csv"].made(jam, planned.best) == BOM + shown.replace("\n", "\r\n")


def test_every_kind_of_sheet_is_told() -> None:
    told = re.findall(r"^\| `(\.\w+)` \|", (ROOT / "docs" / "how-to" / "sheet.md").read_text("utf-8"), re.MULTILINE)
    assert sorted(told) == sorted(FORMATS)
