"""Box files are found beside a jam, in the user's own folder, and among those that come with hardpan."""

from pathlib import Path

import pytest

from solver.boxes import SHIPPED, YOURS, your_folder
from solver.reading import BadInput
from solver.reading.at_hand import Shelf, box_file

BOX = 'name = "B"\n[[midi]]\nname = "IN"\nway = "in"\n'
JAM = 'title = "J"\nleader = "b"\nlisten = "b/MAIN"\n[boxes]\nb = "b.toml"\n'


@pytest.fixture
def table(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder for a jam; the user's own folder is beside it."""
    monkeypatch.setenv(YOURS, str(tmp_path / "own"))
    for folder in ("own", "table/boxes"):
        (tmp_path / folder).mkdir(parents=True)
    return tmp_path / "table"


def put(folder: Path, name: str, text: str = BOX) -> Path:
    file = folder / f"{name}.toml"
    file.write_text(text, "utf-8")
    return file


def found(folder: Path) -> list[tuple[str, Path]]:
    return [(one.where, one.file) for one in Shelf(folder).all if one.where != "shipped"]


def test_the_nearest_come_first(table: Path) -> None:
    own, inner, outer = put(table.parent / "own", "a"), put(table / "boxes", "b"), put(table, "c")
    assert found(table) == [("beside", outer), ("beside", inner), ("yours", own)]
    assert [one.file for one in Shelf(table).all if one.where == "shipped"] == sorted(SHIPPED.glob("*.toml"))


def test_files_of_other_kinds_are_left_out(table: Path) -> None:
    put(table, "jam", JAM)
    put(table, "set", 'title = "S"\njams = ["jam.toml"]\n')
    put(table, "other", '[tool]\nname = "x"\n')
    assert found(table) == []


@pytest.mark.parametrize("text", ['name = "B"\nvoices = "many"\n', "name = ", 'nam = "B"\nabout = "box"\n'])
def test_a_bad_box_file_is_listed_with_what_is_wrong(table: Path, text: str) -> None:
    file = put(table, "bad", text)
    (bad,) = [one for one in Shelf(table).all if one.where == "beside"]
    assert (bad.file, bad.box) == (file, None)
    assert str(bad.problems[0]).startswith(f"{file}:1:") or str(bad.problems[0]).startswith(f"{file}:2:")


def test_one_folder_is_listed_once(table: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = put(table / "boxes", "b")
    monkeypatch.setenv(YOURS, str(table / "boxes"))
    assert found(table) == [("beside", file)]


def test_a_name_means_the_nearest_box_file(table: Path) -> None:
    assert Shelf(table).find("sampler") == SHIPPED / "sampler.toml"
    own = put(table.parent / "own", "sampler")
    assert Shelf(table).find("sampler") == own
    put(table, "sampler", JAM)
    assert Shelf(table).find("sampler") == own
    inner = put(table / "boxes", "sampler", "name = ")
    assert Shelf(table).find("sampler") == inner


def test_a_name_may_be_that_of_the_box_in_any_case(table: Path) -> None:
    file = put(table, "one", BOX.replace('"B"', '"Old Harbour"'))
    other = put(table, "Two")
    assert [Shelf(table).find(word) for word in ("old harbour", "ONE", "two")] == [file, file, other]


@pytest.mark.parametrize("word", ["boxes/reef.toml", "boxes/reef", "./boxes/reef"])
def test_a_path_leads_from_where_one_stands_or_from_the_jam(
    table: Path, word: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    beside = put(table / "boxes", "reef")
    found = Shelf(table).find(word)
    assert found is not None
    assert found.samefile(beside)
    here = table.parent / "here"
    (here / "boxes").mkdir(parents=True)
    monkeypatch.chdir(here)
    nearer = put(here / "boxes", "reef")
    found = Shelf(table).find(word)
    assert found is not None
    assert found.samefile(nearer)


def test_a_home_folder_may_begin_a_path(table: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOME", str(table))
    assert Shelf().find("~/reef.toml") is None
    assert Shelf().find("~/reef") is None
    file = put(table, "reef")
    assert Shelf().find("~/reef.toml") == Shelf().find("~/reef") == file


@pytest.mark.parametrize(
    "word", ["", "samplr", "sampler.toml", "x/sampler", ".", "..", "/", "\0", "x" * 9999, "~nobody"]
)
def test_what_is_nothing_at_hand_is_not_found(table: Path, word: str) -> None:
    put(table / "boxes", "sampler")
    assert Shelf(table).find(word) is None


def test_a_box_file_that_is_named_is_found_from_where_one_stands(table: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    put(table / "boxes", "samplar")
    monkeypatch.chdir(table)
    assert box_file("samplar") == Path("boxes/samplar.toml")
    assert box_file("boxes/samplar") == Path("boxes/samplar.toml")


@pytest.mark.parametrize("word", ["sampler.toml", "boxes/sampler", "./sampler"])
def test_a_path_that_leads_nowhere_means_itself(word: str) -> None:
    assert box_file(word) == Path(word)


def test_an_unknown_name_suggests_the_nearest() -> None:
    with pytest.raises(BadInput) as error:
        box_file("samplr")
    assert str(error.value) == (
        "samplr: no box file of that name is here, in your own folder, or among those that come with hardpan; "
        "hardpan box list shows those that are; "
        'did you mean "sampler"? [F01]'
    )


def test_your_folder_is_where_the_variables_say(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(YOURS, "gear")
    assert your_folder() == Path("gear")
    monkeypatch.delenv(YOURS)
    monkeypatch.setenv("XDG_DATA_HOME", "/data")
    assert your_folder() == Path("/data/hardpan/boxes")
    monkeypatch.delenv("XDG_DATA_HOME")
    monkeypatch.setenv("HOME", "/home/ann")
    assert your_folder() == Path("/home/ann/.local/share/hardpan/boxes")
