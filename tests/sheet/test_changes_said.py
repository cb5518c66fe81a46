"""Each change of a jam in a sentence, and what goes with what is left out."""

import shutil
from pathlib import Path

import pytest

from solver.sheet.changes import changes_said
from tests.reading.changing import JAM, ask
from tests.showing import SCENARIOS

NO_DRAWER = JAM.replace('[cables]\n"6.35 mono" = 9\ndin = 3\n', "")


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to stand in, with the jam and its boxes."""
    monkeypatch.chdir(tmp_path)
    shutil.copytree(SCENARIOS / "boxes", tmp_path / "boxes")
    (tmp_path / "jam.toml").write_text(JAM, encoding="utf-8")
    return tmp_path


def said(*words: str) -> list[str]:
    """What is said of some changes."""
    asked = ask(*words)
    return changes_said(asked.before, asked.after, asked.changes)


@pytest.mark.parametrize(
    ("words", "sentences"),
    [
        ((), []),
        # boxes
        (("--add-box reef=boxes/eddy.toml",), ["one more box: reef"]),
        (
            ("--add-box barge=boxes/wherry.toml", "--drop intent.3"),
            ["another box in place of barge: boxes/wherry.toml", "without what you avoid, 10 and barge/R (intent.3)"],
        ),
        (
            ("--remove-box barge",),
            [
                "without the box barge",
                "my bass may live on any other box",
                "also left out, in part: what you avoid, 10 and barge/R (intent.3)",
            ],
        ),
        # the drawer
        (("--drawer din=1",), ["the drawer holds 1 cable of din instead of 3"]),
        (("--drawer din=0",), ["the drawer holds no cable of din instead of 3"]),
        (("--drawer usb=2",), ["the drawer holds 2 cables of usb"]),
        (("--drawer din=3",), ["cables.din stays 3"]),
        (("--drawer usb=999",), ["the drawer holds as many cables of usb as it takes"]),
        (("--drop cables.din",), ["the drawer holds as many cables of din as it takes"]),
        (("--drop cables",), ["the drawer holds as many cables as it takes"]),
        (("--set cables={}",), ["the drawer holds no cables"]),
        # parts
        (("--add-part hats",), ["one more part: hats"]),
        (("--add-part hats = { on = 'barge/2' }",), ["one more part: hats, on barge/2"]),
        (("--set part.kick.on=barge",), ["kick lives on barge instead of tiller/PAD 1"]),
        (("--set part.arp.on=barge",), ["arp lives on barge instead of any box"]),
        (("--set part.my bass.on=barge",), ['part."my bass".on stays "barge"']),
        (("--set part.my bass.sound=glass",), ['part."my bass".sound: "synth" -> "glass"']),
        (("--set part.arp.notes=2",), ["part.arp.notes: 2"]),
        (("--drop part.kick.on",), ["kick may live on any box"]),
        (("--drop part.my bass.sound",), ['without part."my bass".sound']),
        (("--drop-part kick",), ["without the part kick", "also left out, in part: the amounts of arp (intent.2)"]),
        (
            ("--drop-part arp",),
            [
                "without the part arp",
                "also left out, in part: one track for my bass and arp (intent.1)",
                "also left out: the amounts of arp (intent.2)",
                "also left out: what you keep of arp (intent.4)",
            ],
        ),
        # wishes
        (("--add-intent stereo = ['arp']",), ["one more wish: both sides of arp"]),
        (
            ("--add-intent treat = ['kick'], with = { ducking = 5, reverb = 0 }, key = 'arp'",),
            ["one more wish: the amounts of kick, 5 % ducking under arp and 0 % reverb"],
        ),
        (
            ("--drop intent.1", "--add-intent stereo = ['arp']", "--add-part hats", "--add-intent match = ['hats']"),
            [
                "without one track for my bass and arp (intent.1)",
                "one more wish: both sides of arp",
                "one more part: hats",
                "one more wish: the match of hats",
            ],
        ),
        (("--drop intent.2.at",), ["without intent.2.at"]),
        (("--set intent.2.with.reverb=5",), ["reverb of arp is 5 % instead of 10 %"]),
        (("--set intent.2.with.warmth=5",), ["warmth of arp is 5 %"]),
        (("--set intent.2.with.reverb=10",), ["intent.2.with.reverb stays 10"]),
        (("--set intent.1.shift.my bass=5",), ['intent.1.shift."my bass": -12 -> 5']),
        (
            ("--set intent.1.layer.1=arp", "--set intent.1.layer.2=my bass"),
            ['intent.1.layer.1: "my bass" -> "arp"', 'intent.1.layer.2: "arp" -> "my bass"'],
        ),
        (("--set intent.2.treat=['kick', 'arp']",), ['intent.2.treat: ["arp"] -> ["kick", "arp"]']),
        (("--set intent.1.name=low",), ['intent.1.name: "low"']),
        # the rest
        (("--set mains=mono",), ["the mains are mono"]),
        (("--set mains=stereo",), ["the mains are stereo"]),
        (("--set tempo=90",), ["tempo: 100 -> 90"]),
        (("--set tempo=100",), ["tempo stays 100"]),
        (("--set tempo=100.5",), ["tempo: 100 -> 100.5"]),
        (("--set title=Other",), ['title: "Full" -> "Other"']),
        (("--set recall.barge=slot 1",), ['recall.barge: "slot 1"']),
        (("--drop recall.tiller",), ["without recall.tiller"]),
        (("--drop recall",), ["without recall"]),
        # first what is set, then what is left out with all that goes with it, then what is added
        (
            ("--add-part hats", "--drop-part kick", "--set tempo=90"),
            [
                "tempo: 100 -> 90",
                "without the part kick",
                "also left out, in part: the amounts of arp (intent.2)",
                "one more part: hats",
            ],
        ),
    ],
    ids=lambda value: " ".join(map(str, value))[:50],
)
def test_each_change_is_said(words: tuple[str, ...], sentences: list[str]) -> None:
    assert [sentence.replace("\u00a0", " ") for sentence in said(*words)] == sentences


def test_a_drawer_that_is_new_holds_nothing_else(folder: Path) -> None:
    (folder / "jam.toml").write_text(NO_DRAWER, encoding="utf-8")
    assert said("--drawer din=1") == ["the drawer holds 1 cable of din", "the drawer holds no other cables"]
    assert said("--set cables={}") == ["the drawer holds no cables"]
    assert said("--set tempo=90") == ["tempo: 100 -> 90"]


def test_mains_that_are_left_out_are_mono(folder: Path) -> None:
    (folder / "jam.toml").write_text('mains = "stereo"\n' + JAM, encoding="utf-8")
    assert said("--drop mains") == ["the mains are mono"]
    assert said("--set mains=stereo") == ["the mains are stereo"]


def test_an_amount_and_its_unit_stay_on_one_line() -> None:
    assert said("--set intent.2.with.reverb=5") == ["reverb of arp is 5\u00a0% instead of 10\u00a0%"]
