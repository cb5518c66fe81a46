"""What ``hardpan explain`` writes, to the letter, and what holds for every such text.

If a text changes on purpose, write all of ``golden`` anew and read what changed:

    python -m tests.explain.test_texts && git diff tests/explain/golden
"""

import re
import shlex
from collections.abc import Iterator
from contextlib import chdir
from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner

from benchmarks.rigs import Size, rig
from solver.cli import main
from solver.jam.jam import Jam
from solver.reading import line_finder, read_jam
from solver.reasons.explained import WhyImpossible
from solver.reasons.whys import WhyPossible
from solver.sheet.cells import width_of
from solver.sheet.edits import Source
from solver.sheet.explaining import TELLING, explained_text, headline
from tests.determinism.test_same_answer import run
from tests.explain.known import LONG, explain, let_commands_know, why_impossible
from tests.explain.test_facts import TOLD
from tests.showing import ROOT, SCENARIOS

GOLDEN = Path(__file__).parent / "golden"
LOW_TIDE = "scenarios/low-tide.toml"
WIDTH = 80

IMPOSSIBLE = {
    path.stem: f"scenarios/impossible/{path.name}" for path in sorted((SCENARIOS / "impossible").glob("*.toml"))
}
COMMANDS = {
    **IMPOSSIBLE,
    "low-tide": LOW_TIDE,
    "low-tide-fewer": f"{LOW_TIDE} --fewer",
    "low-tide-not-right": f"{LOW_TIDE} --why-not 'avoid = {{ jacks = [\"barge/R\"] }}'",
    "low-tide-other-channel": f"{LOW_TIDE} --why-not 'keep = {{ part = \"arp\", channel = 1 }}'",
}
"""What is explained, from the root of the repository, by the name of the file that holds the text."""


@cache
def _written(words: str) -> str:
    with chdir(ROOT), pytest.MonkeyPatch.context() as patch:
        let_commands_know(patch)
        done = CliRunner().invoke(main, ["explain", *shlex.split(words), "--time-limit", str(LONG)])
    assert done.exit_code in (0, 1) and not done.stderr.startswith("Sorry"), done.stderr
    return done.stdout


def _golden(name: str) -> str:
    return (GOLDEN / f"{name}.txt").read_text("utf-8")


@pytest.mark.parametrize("name", COMMANDS, scope="module")
def test_the_text_is_as_it_was(name: str) -> None:
    assert _written(COMMANDS[name]) == _golden(name)


def test_every_golden_text_is_compared() -> None:
    assert {path.stem for path in GOLDEN.iterdir()} == set(COMMANDS)


SOLVER_WORDS = re.compile(
    r"\b(constraint|variable|solver|model|infeasible|feasible|literal|clause|boolean|cp-sat|optimal)s?\b", re.IGNORECASE
)
ROW = re.compile(r"   (\S+\.toml(:\d+(-\d+)?)?|gear) +\S")


@cache
def _why(jam: str) -> tuple[Jam, WhyImpossible, str]:
    """An impossible jam, by the name of its file, of a case of facts, or the name of a rig; and its text."""
    if jam in IMPOSSIBLE:
        of, source = read_jam(ROOT / IMPOSSIBLE[jam]), Source(f"{jam}.toml", line_finder(ROOT / IMPOSSIBLE[jam]))
    else:
        of, source = TOLD[jam].jam if jam in TOLD else rig(Size(2, 4, 3)).jam(), Source("jam.toml", lambda _: None)
    why = why_impossible(of)
    return of, why, explained_text(of, why, source, WIDTH)


EVERY = (*IMPOSSIBLE, *TOLD, "rig")


def _conflicts(text: str) -> Iterator[list[str]]:
    """The lines of each conflict: a number, rows, and how it is proved."""
    told, _, _ = text.partition("\nWays out")
    for part in told.split("\n\n"):
        if re.match(r"\d+\. ", part):
            yield part.splitlines()


@pytest.mark.parametrize("jam", EVERY, scope="module")
def test_lines_are_short_and_words_are_plain(jam: str) -> None:
    text = _why(jam)[2]
    assert max(map(width_of, text.splitlines())) <= WIDTH
    assert not SOLVER_WORDS.search(text)
    assert not re.search(r" $|\n\n\n|  \.|\b0 cables|\b1 \w+s needed|^%", text, re.MULTILINE)
    assert text.endswith("\n") and not text.endswith("\n\n")


@pytest.mark.parametrize("name", COMMANDS, scope="module")
def test_every_command_writes_short_lines_and_plain_words(name: str) -> None:
    text = _written(COMMANDS[name])
    assert max(map(width_of, text.splitlines())) <= WIDTH
    assert not SOLVER_WORDS.search(text)


@pytest.mark.parametrize("jam", EVERY, scope="module")
def test_a_headline_has_what_is_needed_and_what_there_is(jam: str) -> None:
    of, why, text = _why(jam)
    flat = " ".join(text.split())
    for clash in why.clashes:
        title = headline(of, clash)
        first = min(clash.facts, key=lambda fact: TELLING.index(fact.kind), default=None)
        if first is not None and first.needs is not None:
            numbers = re.findall(r"\d+|\bno\b|\bnothing\b", title)
            assert str(first.needs) in numbers
            assert str(first.has) in numbers or (not first.has and {"no", "nothing"} & set(numbers))
        assert title[1:] in flat


@pytest.mark.parametrize("jam", EVERY, scope="module")
def test_a_conflict_is_told_in_twelve_lines(jam: str) -> None:
    _, why, text = _why(jam)
    told = list(_conflicts(text))
    assert len(told) >= len(why.groups)
    for lines in told:
        rows = [line for line in lines if ROW.match(line)]
        assert 1 <= len(rows) <= 10
        assert lines[-1].startswith("   ") and any(line.startswith("   Proved") for line in lines)


def test_every_line_of_a_jam_that_is_named_says_so() -> None:
    """The lines of the file that the rows name are lines on which something is said."""
    for name, file in IMPOSSIBLE.items():
        lines = (ROOT / file).read_text("utf-8").splitlines()
        named = re.findall(rf"\b{name}\.toml:(\d+)(?:-(\d+))?", _written(file))
        assert named
        for first, last in named:
            assert all(lines[int(number) - 1].split("#")[0].strip() for number in (first, last or first))


SCRIPT = """
import sys
from solver.cli import main
from solver.reasons import explained

for share in ("CONFLICT_SECONDS", "FACT_SECONDS", "REPAIR_SECONDS", "WHY_SECONDS"):
    setattr(explained, share, 600.0)
main(["explain", *sys.argv[1:], "--time-limit", "600"], prog_name="hardpan", standalone_mode=False)
"""


@pytest.mark.parametrize("words", [IMPOSSIBLE["three-winds"], LOW_TIDE])
def test_two_runs_say_the_same_to_the_byte(words: str) -> None:
    first, second = (run(SCRIPT, words, seed=seed) for seed in ("1", "4242"))
    assert first == second == _written(words)


def test_reasons_of_a_plan_are_all_told() -> None:
    why = explain(read_jam(ROOT / LOW_TIDE))
    assert isinstance(why, WhyPossible)
    text = " ".join(_written(LOW_TIDE).split())
    for number, one in enumerate(why.whys, start=1):
        assert f"{number}. {one.what[0].upper()}" in text or f"{number}. {one.what[0]}" in text
        assert one.what[1:] in text


def _renew() -> None:
    for name, words in COMMANDS.items():
        (GOLDEN / f"{name}.txt").write_text(_written(words), "utf-8")
    for path in GOLDEN.iterdir():
        if path.stem not in COMMANDS:
            path.unlink()


if __name__ == "__main__":
    _renew()
