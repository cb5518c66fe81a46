"""Bad files, and that each is told by file, line, key, what was found, what is allowed and what was meant."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from solver.codes import Code
from solver.reading import BadInput, Problem, read_box, read_jam, read_plan, read_saved
from tests.reading.plans import PLAN
from tests.reading.table import lay

CASES = Path(__file__).parent / "cases"


def cases(*files: str) -> list[Any]:
    listed = [case for file in files for case in tomllib.loads((CASES / f"{file}.toml").read_text("utf-8"))["case"]]
    return [pytest.param(case["edits"], case["says"], id=case["name"].replace(" ", "-")) for case in listed]


def said(error: pytest.ExceptionInfo[BadInput], folder: Path) -> list[str]:
    return str(error.value).replace(f"{folder}/", "").split("\n")


@pytest.mark.parametrize(("edits", "says"), cases("boxes", "jams", "both", "toml"))
def test_bad_jams_and_boxes(tmp_path: Path, edits: list[list[str]], says: list[str]) -> None:
    jam = lay(tmp_path, *((file, old, new) for file, old, new in edits))
    with pytest.raises(BadInput) as error:
        read_jam(jam)
    assert said(error, tmp_path) == says


@pytest.mark.parametrize(("edits", "says"), cases("plans"))
def test_bad_plans(tmp_path: Path, edits: list[list[str]], says: list[str]) -> None:
    jam = read_jam(lay(tmp_path))
    text = PLAN
    for old, new in edits:
        assert old in text
        text = text.replace(old, new, 1)
    (tmp_path / "plan.json").write_text(text, encoding="utf-8")
    with pytest.raises(BadInput) as error:
        read_plan(tmp_path / "plan.json", jam)
    assert said(error, tmp_path) == says


def test_a_problem_keeps_its_pieces(tmp_path: Path) -> None:
    jam = lay(tmp_path, ("tiller", "channel = 10", "chanel = 10"))
    with pytest.raises(BadInput) as error:
        read_jam(jam)
    (problem,) = error.value.problems
    assert (problem.file, problem.line, problem.key) == (f"{tmp_path}/boxes/tiller.toml", 36, "engine.1.chanel")
    assert (problem.found, problem.suggestion) == ("unknown key chanel", "channel")
    assert problem.allowed.startswith("the keys name, ")


def test_paths_are_shown_as_typed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    lay(tmp_path, ("barge", "shift = 24", "shift = 240"), ("jam", "tempo = 118", "tempo = 0"))
    monkeypatch.chdir(tmp_path)
    with pytest.raises(BadInput) as error:
        read_jam("./low-tide.toml")
    assert [problem.file for problem in error.value.problems] == ["./low-tide.toml", "boxes/barge.toml"]


def test_a_long_value_is_cut(tmp_path: Path) -> None:
    jam = lay(tmp_path, ("barge", '"Barge"', f'"{"B" * 300}"'))
    with pytest.raises(BadInput) as error:
        read_jam(jam)
    assert len(error.value.problems[0].found) == 60


RAW = {
    "not UTF-8": (b"title = 'x'\n# \xff", 2, "byte 0xff at offset 14, which is no UTF-8"),
    "UTF-16": ("title = 'x'".encode("utf-16"), 1, "byte 0xff at offset 0, which is no UTF-8"),
    "a NUL byte": (b"title = 'x'\n\n\0", 3, "a NUL byte at offset 13"),
    "a huge number": (b"tempo = " + b"9" * 5000, 1, "a number of thousands of digits"),
    "lists without end": (b"tempo = " + b"[" * 100_000, None, "lists or tables inside each other without end"),
    "tables without end": (b"tempo = " + b"{a=" * 100_000, None, "lists or tables inside each other without end"),
    "a key of many parts": (b"\n" + b"a." * 300_000 + b"a = 1", 2, "a key of more than 64 parts"),
    "a quoted key of many parts": (b'"a" . ' * 100_000 + b"a = 1", 1, "a key of more than 64 parts"),
    "a header of many parts": (b"a = 1\n [[ b . 'c'" + b".a" * 7 + b"]]", 2, "a header of more than 8 parts"),
    "too large": (b"#" * 1_000_001, None, "1000001 bytes"),
    "a set": (b"title = 'x'\njams = ['a.toml']", 2, "this is a set; here hardpan takes one jam"),
    "a box for a jam": (
        b"name = 'x'\n[[engine]]\nname = '1'",
        1,
        "this is a box file; a jam file has leader, listen, [boxes], [part.NAME] and the like",
    ),
}


def test_headers_may_have_some_parts_and_texts_any(tmp_path: Path) -> None:
    jam = lay(tmp_path, ("jam", "title = ", 'title = "[a.b.c.d.e.f.g.h.i]"  # [a.b.c.d.e.f.g.h.i]\n#'))
    with jam.open("a", encoding="utf-8") as stream:
        stream.write("[a.b.c.d.e.f.g.h]\n")
    with pytest.raises(BadInput, match=r": a: found unknown key a; allowed: the keys title"):
        read_jam(jam)


def test_a_crowded_table_is_told_in_one_line(tmp_path: Path) -> None:
    jam = lay(tmp_path, ("jam", "[boxes]\n", "[boxes]\n" + "".join(f'b{n} = "big.toml"\n' for n in range(21))))
    engines = "".join(f'[[engine]]\nname = "{n}"\n' for n in range(1000))
    (jam.parent / "big.toml").write_text(f'name = "Big"\n{engines}', "utf-8")
    with pytest.raises(BadInput) as error:
        read_jam(jam)
    (problem,) = error.value.problems
    assert (problem.key, problem.allowed) == ("boxes", "at most 20000 on one table")
    assert problem.found.endswith(" outlets, inlets, strips, engines, tracks and ports")


def test_long_names_are_listed_up_to_a_length(tmp_path: Path) -> None:
    tables = "".join(f'[[out]]\nname = "{"x" * 190}{n}"\nmono = "{n}"\n' for n in range(20))
    (tmp_path / "x.toml").write_text(f'name = "X"\n[[engine]]\nname = "1"\nto = "y"\n{tables}', "utf-8")
    with pytest.raises(BadInput, match=r"x6\" and 13 more \[N01\]$"):
        read_box(tmp_path / "x.toml")


@pytest.mark.parametrize("what", RAW)
def test_raw_bytes(tmp_path: Path, what: str) -> None:
    raw, line, found = RAW[what]
    (tmp_path / "x.toml").write_bytes(raw)
    with pytest.raises(BadInput) as error:
        read_jam(tmp_path / "x.toml")
    (problem,) = error.value.problems
    assert (problem.line, problem.found) == (line, found)


def test_the_size_is_told_with_the_limit(tmp_path: Path) -> None:
    (tmp_path / "x.toml").write_bytes(b"#" * 1_000_001)
    with pytest.raises(BadInput, match=r"found 1000001 bytes; allowed: at most 1000000 bytes \(1 MB\) \[F03\]$"):
        read_box(tmp_path / "x.toml")
    (tmp_path / "x.json").write_bytes(b" " * 16_000_001)
    with pytest.raises(BadInput, match=r"found 16000001 bytes; allowed: at most 16000000 bytes \(16 MB\) \[F03\]$"):
        read_saved(tmp_path / "x.json")


@pytest.mark.parametrize(
    ("path", "found"),
    [
        ("none.toml", "no such file"),
        (".", "a directory"),
        ("/dev/zero", "a device or pipe"),
        ("a\0b", "a file that cannot be opened (not a path)"),
        ("x" * 5000, "a file that cannot be opened (file name too long)"),
    ],
)
def test_what_cannot_be_opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, path: str, found: str) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(BadInput) as error:
        read_jam(path)
    (problem,) = error.value.problems
    assert (problem.found, problem.allowed) == (found, "a jam file")


def test_a_file_that_may_not_be_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    jam = lay(tmp_path)
    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(BadInput, match="found a file that may not be read; allowed: a jam file"):
        read_jam(jam)


@pytest.mark.parametrize(("text", "found"), [("[" * 100_000, "lists or tables inside each other without end")])
def test_raw_plans(tmp_path: Path, text: str, found: str) -> None:
    jam = read_jam(lay(tmp_path))
    (tmp_path / "plan.json").write_text(text, encoding="utf-8")
    with pytest.raises(BadInput, match=found):
        read_plan(tmp_path / "plan.json", jam)


def test_very_many_faults_are_counted(tmp_path: Path) -> None:
    (tmp_path / "x.toml").write_text("[[engine]]\n" * 999, encoding="utf-8")
    with pytest.raises(BadInput) as error:
        read_box(tmp_path / "x.toml")
    assert "1000 wrong things; the first 500 are listed" in str(error.value)
    assert len(error.value.problems) == 501


def test_a_sentence_stands_alone() -> None:
    assert str(Problem(Code.OTHER_KIND, "a.toml", None, "", "this is a set")) == "a.toml: this is a set [F07]"
