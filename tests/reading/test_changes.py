"""Changes of a jam as options and files ask for them: the jam after, and the lines that are left of its file."""

import os
import shutil
from pathlib import Path

import pytest

from solver.jam.editing import Path as KeyPath
from solver.reading import BadInput, read_jam
from solver.reading.rewriting import RewriteError
from tests.reading.changing import JAM, ask, in_file
from tests.showing import SCENARIOS


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder to stand in, with the jam and its boxes."""
    monkeypatch.chdir(tmp_path)
    shutil.copytree(SCENARIOS / "boxes", tmp_path / "boxes")
    (tmp_path / "jam.toml").write_text(JAM, encoding="utf-8")
    return tmp_path


HATS = '[part.hats]\non = "barge"\n'
STEREO = '[[intent]]\nstereo = ["arp"]\n'
TREAT = JAM[JAM.index("[[intent]]\ntreat") : JAM.index("[[intent]]\navoid")]
AVOID = '[[intent]]\navoid = { channels = [10], jacks = ["barge/R"] }\n'
NO_BARGE = (('barge = "boxes/barge.toml"\n', ""), ('on = "barge"\n', ""), (', jacks = ["barge/R"]', ""))
KEEP = JAM[JAM.index("[[intent]]\nkeep") :]
LAYER = JAM[JAM.index("[[intent]]\nlayer") : JAM.index("[[intent]]\ntreat")]

AFTER: list[tuple[tuple[str, ...], tuple[tuple[str, str], ...]]] = [
    ((), ()),
    (("--add-box reef=boxes/eddy.toml",), (("[cables]", 'reef = "boxes/eddy.toml"\n[cables]'),)),
    (('--add-box "my reef" = "boxes/eddy.toml"',), (("[cables]", '"my reef" = "boxes/eddy.toml"\n[cables]'),)),
    (("--add-box my reef=boxes/eddy.toml",), (("[cables]", '"my reef" = "boxes/eddy.toml"\n[cables]'),)),
    (('--add-box "a=b"=boxes/eddy.toml',), (("[cables]", '"a=b" = "boxes/eddy.toml"\n[cables]'),)),
    (("--add-box 🐙=boxes/../boxes/eddy.toml",), (("[cables]", '"🐙" = "boxes/eddy.toml"\n[cables]'),)),
    (("--add-box barge=boxes/wherry.toml", "--drop intent.3"), (("barge.toml", "wherry.toml"), (AVOID, ""))),
    (("--add-part hats",), (("[part.arp]", "[part.arp]\n[part.hats]"),)),
    (('--add-part "my hats"',), (("[part.arp]", '[part.arp]\n[part."my hats"]'),)),
    (('--add-part hats = { on = "barge" }',), (("[part.arp]\n", f"[part.arp]\n{HATS}"),)),
    (('--add-part { hats.on = "barge" }\n',), (("[part.arp]\n", f"[part.arp]\n{HATS}"),)),
    (
        ('--add-part hats = { on = "barge" }, ride = {}',),
        (("[part.arp]\n", f"[part.arp]\n{HATS}[part.ride]\n"),),
    ),
    (('--add-part "🥁" = {}',), (("[part.arp]", '[part.arp]\n[part."🥁"]'),)),
    (('--add-intent stereo = ["arp"]',), ((KEEP, KEEP + STEREO),)),
    (
        ('--add-intent {stereo=["arp"]}', '--add-intent stereo = ["arp"]'),
        ((KEEP, KEEP + 2 * STEREO),),
    ),
    (
        ("--drop-part kick",),
        (('[part.kick]\non = "tiller/PAD 1"\n', ""), ("ducking = 20, ", ""), ('key = "kick"\n', "")),
    ),
    (
        ("--drop-part arp",),
        (("[part.arp]\n", ""), (', "arp"]\n', "]\n"), (TREAT, ""), (KEEP, "")),
    ),
    (("--drop part.my bass.on",), (('on = "barge"\n', ""),)),
    (("--drop part.'my bass'.on",), (('on = "barge"\n', ""),)),
    (("--drop  part . arp ", "--drop intent.1"), (("[part.arp]\n", ""), (LAYER, ""), (TREAT, ""), (KEEP, ""))),
    (("--remove-box barge",), NO_BARGE),
    (("--drop boxes.barge",), NO_BARGE),
    (("--drop intent.1", "--drop intent.2", "--drop intent.1", "--drop intent.1.shift"), ((LAYER, ""), (TREAT, ""))),
    (("--drop intent.2.at", "--drop intent.1.shift"), (('at = "tiller"\n', ""), ('shift = { "my bass" = -12 }\n', ""))),
    (("--drop recall.tiller",), (('tiller = "bank A"\n', ""),)),
    (("--drop recall",), (('[recall]\ntiller = "bank A"\n', ""),)),
    (("--drop cables", "--drop cables.din"), (('[cables]\n"6.35 mono" = 9\ndin = 3\n', ""),)),
    (("--drop cables.6.35 mono",), (("= 9", "= 999"),)),
    (("--drawer din=4",), (("din = 3", "din = 4"),)),
    (("--drawer 6.35 mono = 4",), (("= 9", "= 4"),)),
    (('--drawer "6.35 mono"=4',), (("= 9", "= 4"),)),
    (("--drawer 3.5 stereo > 2x 6.35 mono=1",), (("din = 3", 'din = 3\n"3.5 stereo > 2x 6.35 mono" = 1'),)),
    (("--set cables.6.35 mono=4", "--set cables.din=3"), (("= 9", "= 4"),)),
    (("--set cables={usb = 1, din = 2}",), (("din = 3", "din = 2\nusb = 1"),)),
    (("--set cables={}",), (('"6.35 mono" = 9\ndin = 3\n', ""),)),
    (("--set mains=mono",), (("tempo", 'mains = "mono"\ntempo'),)),
    (('--set title="a # b = c"',), (('"Full"', '"a # b = c"'),)),
    (("--set title=a # b = c",), (('"Full"', '"a # b = c"'),)),
    (("--set tempo = 90.5 # faster",), (("100", "90.5"),)),
    (("--set part.my bass.on=tiller",), (('"barge"', '"tiller"'),)),
    (('--set part."my bass"={on = "tiller", notes=2}',), (('on = "barge"', 'on = "tiller"\nnotes = 2'),)),
    (
        ('--set part={"my bass"={notes=2}, arp={on="barge"}}',),
        (('"synth"\n[part.arp]', '"synth"\nnotes = 2\n[part.arp]\non = "barge"'),),
    ),
    (("--set part.kick.sounds=['a', 'b']",), (('PAD 1"', "PAD 1\"\nsounds = ['a', 'b']"),)),
    (('--set intent.1.shift."my bass"=5',), (("-12", "5"),)),
    (("--set intent.1.shift.my bass=5",), (("-12", "5"),)),
    (("--set intent.1.shift.arp=5",), (("-12", "-12, arp = 5"),)),
    (("--set intent.1.shift={}",), (('"my bass" = -12', ""),)),
    (("--set intent.2.with={reverb=5}",), (("reverb = 10", "reverb = 5"),)),
    (("--set intent.2.with.warmth=5",), (("reverb = 10", "reverb = 10, warmth = 5"),)),
    (("--set intent.2.treat.2=kick",), (('["arp"]', '["arp", "kick"]'),)),
    (('--set intent.1.layer=["arp"]', "--drop intent.1.shift"), ((LAYER, '[[intent]]\nlayer = ["arp"]\n'),)),
    (("--set intent.3.name=no drums", "--drop intent.1"), ((LAYER, ""), ("avoid", 'name = "no drums"\navoid'))),
    (('--set intent.4.keep.part="my bass"',), (('part = "arp"', 'part = "my bass"'),)),
    (
        ("--remove-box tiller", "--set leader=barge", "--set listen=barge/MAIN"),
        (
            ('tiller = "boxes/tiller.toml"\n', ""),
            ('"tiller"', '"barge"'),
            ('"tiller/MAIN"', '"barge/MAIN"'),
            ('[recall]\ntiller = "bank A"\n', ""),
            ('on = "tiller/PAD 1"\n', ""),
            ('at = "barge"\n', ""),
        ),
    ),
    (
        (
            "--set part.arp.on=reef",
            "--add-box reef=boxes/eddy.toml",
            "--drop intent.1",
            '--add-intent play = ["hats"], from = "reef"',
            "--add-part hats",
        ),
        (
            ("[part.arp]\n", '[part.arp]\non = "reef"\n[part.hats]\n'),
            ("[cables]", 'reef = "boxes/eddy.toml"\n[cables]'),
            (LAYER, ""),
            (KEEP, f'{KEEP}[[intent]]\nplay = ["hats"]\nfrom = "reef"\n'),
        ),
    ),
]


@pytest.mark.parametrize(("words", "edits"), AFTER, ids=lambda value: " ".join(map(str, value))[:60])
def test_the_jam_after_is_that_of_a_file_edited_by_hand(
    words: tuple[str, ...], edits: tuple[tuple[str, str], ...], folder: Path
) -> None:
    text = JAM
    for old, new in edits:
        text = text.replace(old, new)
    (folder / "by-hand.toml").write_text(text, encoding="utf-8")
    changed = ask(*words)
    assert changed.after == read_jam("by-hand.toml")
    assert changed.before == read_jam("jam.toml")
    (folder / "changed.toml").write_bytes(changed.rewritten().encode())
    assert read_jam("changed.toml") == changed.after
    assert bool(words) == (changed.after != changed.before)
    assert changed.text == JAM == (folder / "jam.toml").read_text(encoding="utf-8")


CHANGES = """\
drop = ["intent.3"]
[boxes]
reef = "../boxes/eddy.toml"
[part.hats]
on = "reef"
[[intent]]
stereo = ["hats"]
[set]
part.arp.on = "reef"
"cables.din" = 4
"part.my bass.on" = "tiller"
intent.2.with = { reverb = 5 }
"""


def test_a_file_of_changes_is_as_good_as_options() -> None:
    options = (
        "--add-box reef=boxes/eddy.toml",
        "--add-part hats = { on = 'reef' }",
        "--add-intent stereo = ['hats']",
        "--drop intent.3",
        "--set part.arp.on=reef",
        "--drawer din=4",
        "--set part.my bass.on=tiller",
        "--set intent.2.with.reverb=5",
    )
    asked = ask(in_file(CHANGES))
    assert asked.after == ask(*options).after != asked.before
    assert asked.changes == ask(*options).changes
    assert ask(in_file(""), "--set tempo=90").after == ask("--set tempo=90").after


LINES: list[tuple[KeyPath, int | None]] = [
    (("tempo",), 2),
    (("boxes", "tiller"), 6),
    (("part", "kick", "on"), 14),
    (("part", "arp"), 18),
    (("part", "arp", "on"), None),
    (("part", "hats"), None),
    (("cables", "din"), None),
    (("cables", "6.35 mono"), 9),
    (("mains",), None),
    (("intent", 0), 22),
    (("intent", 0, "with", "ducking"), 24),
    (("intent", 0, "with", "reverb"), None),
    (("intent", 0, "with"), None),
    (("intent", 1), 29),
    (("intent", 1, "keep", "pan"), 30),
    (("intent", 2), None),
    (("intent", 2, "stereo"), None),
]


def test_lines_are_those_of_the_file_as_it_stands() -> None:
    changed = ask(
        "--drop intent.1",
        "--drop intent.3",
        "--drawer din=4",
        "--set intent.2.with.reverb=5",
        "--set part.arp.on=barge",
        "--set mains=mono",
        "--add-part hats",
        "--add-intent stereo = ['arp']",
    )
    assert [intent.kind for intent in changed.after.intents] == ["treat", "keep", "stereo"]
    assert [(path, changed.line(path)) for path, _ in LINES] == LINES
    assert ask().line(("intent", 3, "keep")) == 30


def test_a_box_is_found_from_where_the_command_is_run_even_behind_links(folder: Path) -> None:
    deep = folder / "a" / "deep"
    deep.mkdir(parents=True)
    shutil.copytree("boxes", deep / "boxes")
    (deep / "jam.toml").write_text(JAM, encoding="utf-8")
    (folder / "link").symlink_to("a/deep")
    (folder / "other").symlink_to("boxes")
    (folder / "boxes" / "mine.toml").symlink_to("eddy.toml")
    for asked, written in (
        ("reef=boxes/eddy.toml", '"../../boxes/eddy.toml"'),
        ("reef=other/eddy.toml", '"../../boxes/eddy.toml"'),
        ("reef=boxes/mine.toml", '"../../boxes/mine.toml"'),
        (f"reef={folder}/link/boxes/eddy.toml", '"boxes/eddy.toml"'),
    ):
        changed = ask(f"--add-box {asked}", file="link/jam.toml")
        assert f"reef = {written}\n" in changed.rewritten()
        assert changed.after.boxes["reef"].name == "Eddy"


def test_a_box_may_be_named_as_it_is_at_hand(folder: Path) -> None:
    (folder / "here").mkdir()
    shutil.copy("boxes/wherry.toml", "here/mine.toml")
    (folder / "jams").mkdir()
    shutil.move("jam.toml", "jams/jam.toml")
    shutil.move("boxes", "jams/boxes")
    os.chdir("here")
    for word, written in (
        ("mine", "../here/mine.toml"),
        ("EDDY", "boxes/eddy.toml"),
        ("boxes/eddy", "boxes/eddy.toml"),
    ):
        assert f'reef = "{written}"\n' in ask(f"--add-box reef={word}", file="../jams/jam.toml").rewritten()


def test_a_file_of_changes_names_boxes_by_their_paths_alone(folder: Path) -> None:
    assert ask(in_file('[boxes]\nreef = "../boxes/eddy.toml"\n')).after.boxes["reef"].name == "Eddy"
    with pytest.raises(BadInput, match=r'changes\.toml:2: boxes\.reef: found "eddy" \(no such'):
        ask(in_file('[boxes]\nreef = "eddy"\n'))


def test_a_layout_that_cannot_be_changed_in_place_is_told_with_its_line(monkeypatch: pytest.MonkeyPatch) -> None:
    def refusing(text: str, steps: object) -> str:
        raise RewriteError(("part", "kick", "on"), "it is odd")

    monkeypatch.setattr("solver.reading.changed.rewritten", refusing)
    with pytest.raises(BadInput) as caught:
        ask("--set part.kick.on=tiller").rewritten()
    assert str(caught.value) == "jam.toml:14: part.kick.on: it is odd: make this change by hand [F09]"
