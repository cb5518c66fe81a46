"""What of a folder is read, and what cannot be."""

from pathlib import Path

import pytest

from solver.book.entries import book_of
from tests.book.shelves import edit, entry, shelf

BELLS = ["First Bell", "Second Bell", "Third Bell"]


def titles(folder: Path) -> list[str]:
    return [one.jam.title for one in book_of(folder).jams]


def test_jams_and_sets_are_found_in_folders_below_and_boxes_are_none(tmp_path: Path) -> None:
    book = book_of(shelf(tmp_path))
    assert [one.jam.title for one in book.jams] == ["Low Tide", *BELLS]
    assert [one.on_file.title for one in book.sets] == ["First Watch"]
    assert [one.title for one in entry(book, "Second Bell").sets] == ["First Watch"]
    assert entry(book, "Low Tide").sets == ()
    assert (book.unread, book.strays, book.clashes) == ((), (), ())


def test_an_empty_folder_has_an_empty_book(tmp_path: Path) -> None:
    book = book_of(tmp_path)
    assert (book.jams, book.sets, book.unread) == ((), (), ())


def test_what_is_hidden_or_linked_or_of_another_kind_is_left_out(tmp_path: Path) -> None:
    shelf(tmp_path)
    (tmp_path / ".old").mkdir()
    text = (tmp_path / "low-tide.toml").read_text("utf-8")
    (tmp_path / ".old" / "a.toml").write_text(text, "utf-8")
    (tmp_path / ".b.toml").write_text(text, "utf-8")
    (tmp_path / "round").symlink_to(tmp_path, target_is_directory=True)
    (tmp_path / "change.toml").write_text('[boxes]\nreef = "r.toml"\n[part.x]\n', "utf-8")
    (tmp_path / "project.toml").write_text("[tool]\nx = 1\n", "utf-8")
    (tmp_path / "list.json").write_text("[1]", "utf-8")
    (tmp_path / "other.json").write_text('{"title": "Low Tide", "cables": 3}', "utf-8")
    book = book_of(tmp_path)
    assert [one.jam.title for one in book.jams] == ["Low Tide", *BELLS]
    assert (book.unread, book.strays) == ((), ())


def test_what_is_wrong_stops_nothing_else(tmp_path: Path) -> None:
    shelf(tmp_path)
    (tmp_path / "a.toml").write_text("title = \n", "utf-8")
    (tmp_path / "b.toml").write_text('title = "B"\nleader = "x"\n', "utf-8")
    (tmp_path / "c.json").write_text("{", "utf-8")
    (tmp_path / "d.toml").write_bytes(b"\xff\xfe")
    (tmp_path / "e.toml").write_text('title = "E"\njams = [3, "none.toml", "\\u0000"]\n', "utf-8")
    book = book_of(tmp_path)
    assert [one.jam.title for one in book.jams] == ["Low Tide", *BELLS]
    assert [one.file.name for one in book.unread] == ["a.toml", "b.toml", "d.toml", "e.toml", "c.json"]
    assert all(one.problems for one in book.unread)


def test_a_wrong_box_file_is_told_of_for_every_jam_that_names_it(tmp_path: Path) -> None:
    shelf(tmp_path)
    (tmp_path / "boxes" / "limpet.toml").write_text('name = "Limpet"\nengines = 3\n', "utf-8")
    book = book_of(tmp_path)
    assert [one.jam.title for one in book.jams] == ["Low Tide", "Second Bell"]
    unread = {one.file.name: one.problems for one in book.unread}
    assert list(unread) == ["first-watch.toml", "first.toml", "third.toml"]
    assert all(Path(problems[0].file).name == "limpet.toml" for problems in unread.values())


def test_a_set_whose_jams_clash_still_counts_its_jams(tmp_path: Path) -> None:
    shelf(tmp_path)
    edit(tmp_path / "sets" / "bells" / "second.toml", "bank A, 2", "Bank  a, 1")
    book = book_of(tmp_path)
    assert [one.title for one in entry(book, "Second Bell").sets] == ["First Watch"]
    assert book.sets[0].on_file.of is None
    assert [one.file.name for one in book.unread] == ["first-watch.toml"]


@pytest.mark.parametrize("name", ["a.TOML", "ü ö.toml"])
def test_files_of_any_name(name: str, tmp_path: Path) -> None:
    shelf(tmp_path)
    (tmp_path / "low-tide.toml").rename(tmp_path / name)
    assert titles(tmp_path) == ["Low Tide", *BELLS]
