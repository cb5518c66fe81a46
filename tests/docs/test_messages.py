"""docs/reference/messages.md has every kind of message with its cause, its cure, and an input that leads to it."""

import re
from pathlib import Path

import pytest

from solver.cli.answering import OTHER_MISTAKE, WRONG_PLAN
from solver.codes import Code
from solver.flow.cautions import cautions
from solver.flow.followed import Followed
from solver.jam.jam import Jam
from solver.plans import Plan
from solver.reading import BadInput, read_box
from solver.rules import RULES
from tests.building import (
    ARP,
    BASS,
    LEFT,
    NOTES,
    box,
    cable,
    desk,
    dock_and_reef,
    jam,
    lives,
    module,
    named,
    plain_plan,
    plan,
)
from tests.showing import ROOT

PAGE = (ROOT / "docs" / "reference" / "messages.md").read_text("utf-8")
SECTIONS = dict(re.findall(r"^### (\w+)\n\n((?:(?!^##).*\n)*)", PAGE, re.MULTILINE))
FAMILIES = re.findall(r"^## .+\n((?:(?!^## ).*\n)*)", PAGE, re.MULTILINE)
SHOWN_BY_NONE = {Code.LAYOUT, Code.TOO_MANY, Code.WRONG_PLAN, Code.OWN_MISTAKE}
"""What no file that a page can hold leads to; each of them has a test elsewhere or below."""


def test_every_code_is_told_and_no_other() -> None:
    assert list(SECTIONS) == [str(code) for code in Code]


@pytest.mark.parametrize("code", Code)
def test_its_cause_and_cure_are_those_of_the_list(code: Code) -> None:
    cause, cure = SECTIONS[code].replace("`", "").split("\n\n")[:2]
    assert (cause, cure.rstrip("\n")) == (code.cause, f"Cure: {code.cure}")


@pytest.mark.parametrize("code", Code)
def test_an_input_is_shown_that_leads_to_it(code: Code) -> None:
    """The page is run by the tests of what is shown, so what it shows as output is real."""
    (family,) = [text for text in FAMILIES if f"### {code}\n" in text]
    around = SECTIONS[code] if "```" in SECTIONS[code] else family.partition("\n### ")[0]
    shown = "".join(re.findall(r"^```console\n(.*?)^```$", around, re.MULTILINE | re.DOTALL))
    assert (f"[{code}]" in shown) == (code not in SHOWN_BY_NONE)


def test_codes_are_plain_and_no_rule_has_one() -> None:
    assert all(re.fullmatch(r"[FVNCWBX]\d\d", code) for code in Code)
    assert not {code[0] for code in Code} & {rule.id[0] for rule in RULES}


def test_a_code_is_never_given_twice() -> None:
    assert len({code.cause for code in Code}) == len(Code) == len(Code.__members__)


def test_every_code_is_in_use() -> None:
    texts = "".join(path.read_text("utf-8") for path in (ROOT / "solver").rglob("*.py"))
    assert [name for name in Code.__members__ if f"Code.{name}" not in texts] == []


def test_a_file_with_too_much_wrong_says_so(tmp_path: Path) -> None:
    file = tmp_path / "broken.toml"
    file.write_text('name = "x"\n' + "[[engine]]\nshift = -1\n" * 300, "utf-8")
    with pytest.raises(BadInput) as error:
        read_box(file)
    assert {problem.code for problem in error.value.problems} == {Code.MISSING, Code.OUT_OF_RANGE, Code.TOO_MANY}


def test_mistakes_of_its_own_carry_their_codes() -> None:
    assert WRONG_PLAN[0].endswith(f"[{Code.WRONG_PLAN}]")
    assert OTHER_MISTAKE[0].endswith(f"[{Code.OWN_MISTAKE}]")


def _chained() -> tuple[Jam, Plan]:
    relay = box("Relay", midi=[named("IN", way="in"), named("THRU", way="thru", copies="IN")])
    names = [f"r{number}" for number in range(4)]
    outs = ["dock/MIDI OUT", *(f"{name}/THRU" for name in names)]
    ins = [*(f"{name}/IN" for name in names), "reef/MIDI IN"]
    table = jam({"dock": desk(), "reef": module()} | dict.fromkeys(names, relay), ("bass",))
    return table, plan({"bass": BASS}, [cable("din", *ends) for ends in zip(outs, ins, strict=True)])


def _shared(treated: list[str]) -> tuple[Jam, Plan]:
    """Parts that want reverb, and one or two that share a strip with them."""
    reef = module(engine=[named("1"), named("2"), named("3")])
    table = dock_and_reef({"treat": treated, "with": {"reverb": 9}}, reef=reef)
    strips = {"dock/IN 1": {"outlet": "MAIN", "settings": {"reverb": 9}}}
    kick = lives("reef/3", "dock/EXT 3", 3, "left")
    return table, plain_plan([LEFT, NOTES], kick=kick, arp=ARP | {"pan": "left"}, strips=strips)


def test_every_caution_is_told_by_its_words() -> None:
    few = module().model_copy(update={"voices": 8})
    full = dock_and_reef(parts={"kick": {}, "bass": {"notes": 6}, "arp": {"notes": 6}}, reef=few)
    plans = [
        (full, plain_plan()),
        _chained(),
        (dock_and_reef(), plain_plan([LEFT, NOTES])),
        (dock_and_reef(), plain_plan(without=["arp"])),
        *map(_shared, (["bass"], ["bass", "kick"])),
    ]
    said = [line for of, planned in plans for line in cautions(Followed(of, planned))]
    told = [row for rows in re.findall(r"^\| (.*…[^|]*) \|", PAGE, re.MULTILINE) for row in rows.split(" / ")]
    patterns = {row: re.compile(".+".join(map(re.escape, row.removeprefix("… ").split("…")))) for row in told}
    assert [line for line in said if not any(pattern.search(line) for pattern in patterns.values())] == []
    assert [row for row, pattern in patterns.items() if not any(pattern.search(line) for line in said)] == []
