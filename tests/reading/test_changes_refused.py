"""Changes of a jam that cannot be: each is told where it is asked for, with what is allowed."""

import shutil
import tomllib
from pathlib import Path
from typing import Any

import pytest

from solver.reading import BadInput
from tests.reading.changing import JAM, ask, in_file, refused
from tests.showing import SCENARIOS

with (Path(__file__).parent / "cases" / "changes.toml").open("rb") as stream:
    CASES: dict[str, list[dict[str, Any]]] = tomllib.load(stream)

SHORT = {
    "boxes": '"tiller", "barge"',
    "parts": '"kick", "my bass", "arp"',
    "stated": '"cables", "cables.\\"6.35 mono\\"", "cables.din", "recall.tiller", "part.kick", '
    '"part.\\"my bass\\"", "part.arp", "intent.1", "intent.2", "intent.3", "intent.4"',
    "kinds": "exactly one of layer, separate, treat, stereo, play, match, clock, program, avoid, keep",
}


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to stand in, with the jam and its boxes."""
    monkeypatch.chdir(tmp_path)
    shutil.copytree(SCENARIOS / "boxes", tmp_path / "boxes")
    (tmp_path / "jam.toml").write_text(JAM, encoding="utf-8")
    (tmp_path / "boxes" / "broken.toml").write_text('name = "x"\n[[out]\n', encoding="utf-8")
    return tmp_path


def said_in(case: dict[str, Any]) -> list[str]:
    """What a case expects, in full."""
    lines: list[str] = case["said"]
    for short, long in SHORT.items():
        lines = [line.replace(f"<{short}>", long) for line in lines]
    return lines


@pytest.mark.parametrize("case", CASES["option"], ids=lambda case: " ".join(case["ask"])[:60])
def test_what_cannot_be_is_told_where_it_is_asked_for(case: dict[str, Any]) -> None:
    assert refused(*case["ask"]) == said_in(case)


@pytest.mark.parametrize(
    "option", ["--set title=", "--drop ", "--add-part ", "--drop-part ", "--from ", "--drawer din="]
)
def test_text_that_is_none_is_told(option: str) -> None:
    said = f"{option.split(' ', 1)[0]}: found text that is no UTF-8; allowed: text in UTF-8 [F04]"
    assert refused(f"{option}\udcff") == [said]


@pytest.mark.parametrize("case", CASES["file"], ids=lambda case: case["text"][:40])
def test_a_mistake_in_a_file_of_changes_is_told_with_its_line(case: dict[str, Any]) -> None:
    assert refused(in_file(case["text"])) == said_in(case)


def test_mistakes_of_a_file_and_of_options_are_told_together() -> None:
    said = refused("--drop-part kik", in_file("drop = ['title']"), "--drawer din")
    assert [line.split(":")[0] for line in said] == ["--drop-part", "asked/changes.toml", "--drawer"]


def test_a_mistake_in_a_shifted_intent_is_told_where_it_is_made() -> None:
    more = ("--drop intent.1", "--drop intent.3")
    with pytest.raises(BadInput, match=r"^--set: intent\.4\.keep\.pan: found"):
        ask(*more, "--set intent.4.keep.pan=up")
    with pytest.raises(BadInput, match=r'^--set: intent\.4\.keep\.part: found "app"; .* did you mean "arp"'):
        ask(*more, "--set intent.4.keep.part=app")
    with pytest.raises(BadInput, match=r'^--add-intent: stereo\.1: found "app"; .* did you mean "arp"'):
        ask(*more, "--add-intent stereo = ['arp']", "--add-intent stereo = ['app']")


def test_a_wish_in_the_file_that_a_change_breaks_is_told_with_its_line() -> None:
    said = refused("--drop intent.1", "--add-box barge=boxes/eddy.toml")
    assert len(said) == 1
    assert said[0].startswith('jam.toml:28: intent.3.avoid.jacks.1: found "barge/R"; allowed: a jack: ')


def test_a_jam_that_is_wrong_already_is_told_before_its_changes() -> None:
    Path("jam.toml").write_text(JAM.replace("tempo = 100", "tempo = 0"), encoding="utf-8")
    said = ["jam.toml:2: tempo: found 0; allowed: beats a minute, above 0 and at most 1000 [V05]"]
    assert refused("--set tempo=90", "--drop xx") == said
