"""Saving a plan file whole or not at all."""

import os
from pathlib import Path

import pytest

from solver.cli.saving import SaveError, save, target_of

JAM = Path("low-tide.toml")
OLD = '{"title": "Low Tide", "cables": [], "parts": {}}'


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder to stand in."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_a_file_is_written_as_given(folder: Path) -> None:
    save(target_of(Path("plan.json"), JAM), '{"title": "低"}\n')
    assert (folder / "plan.json").read_bytes() == '{"title": "低"}\n'.encode()
    assert [path.name for path in folder.iterdir()] == ["plan.json"]


def test_a_new_file_has_the_rights_of_any_new_file(folder: Path) -> None:
    (folder / "other").write_text("")
    save(target_of(Path("plan.json"), JAM), "{}\n")
    assert (folder / "plan.json").stat().st_mode == (folder / "other").stat().st_mode


def test_an_old_file_stays_whole_when_the_new_one_fails(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (folder / "plan.json").write_text(OLD)

    def full(self: Path, target: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(SaveError, match=r"not saved \(No space left on device\)"):
        save(target_of(Path("plan.json"), JAM), "new")
    assert {path.name: path.read_text() for path in folder.iterdir()} == {"plan.json": OLD}


@pytest.mark.parametrize("name", ["low-tide.toml", "OTHER.TOML", "boxes/barge.toml", "link.json", "jam.txt"])
def test_jam_and_box_files_are_never_overwritten(folder: Path, name: str) -> None:
    (folder / "boxes").mkdir()
    (folder / "low-tide.toml").write_text("title")
    (folder / "link.json").symlink_to("low-tide.toml")
    (folder / "jam.txt").write_text("title")
    with pytest.raises(SaveError, match="so that no jam or box file is lost"):
        target_of(Path(name), Path("jam.txt"))


@pytest.mark.parametrize("content", ['name = "Toad"', "[]", "{}", "[" * 100_000, '{"title": 1}', "\x00"])
def test_a_file_that_is_no_plan_is_never_overwritten(folder: Path, content: str) -> None:
    (folder / "toad.txt").write_text(content)
    with pytest.raises(SaveError, match="holds something else than a plan"):
        target_of(Path("toad.txt"), JAM)
    assert (folder / "toad.txt").read_text() == content


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="makes a pipe with a name")
def test_a_pipe_is_never_replaced(folder: Path) -> None:
    os.mkfifo(folder / "plan.json")
    with pytest.raises(SaveError, match="a device or a pipe"):
        target_of(Path("plan.json"), JAM)
    assert (folder / "plan.json").is_fifo()


def test_a_device_is_never_replaced() -> None:
    with pytest.raises(SaveError, match="a device or a pipe"):
        target_of(Path(os.devnull), JAM)


def test_a_link_to_a_plan_is_followed(folder: Path) -> None:
    (folder / "kept").mkdir()
    (folder / "kept" / "plan.json").write_text(OLD)
    (folder / "plan.json").symlink_to("kept/plan.json")
    save(target_of(Path("plan.json"), JAM), "new")
    assert (folder / "plan.json").is_symlink()
    assert (folder / "kept" / "plan.json").read_text() == "new"


@pytest.mark.parametrize(
    ("name", "said"),
    [(".", "is a folder"), ("nowhere/plan.json", "is not there"), ("p" * 300, "cannot be saved"), ("a\0b", "cannot")],
)
def test_a_wrong_place_is_told_with_what_to_do(name: str, said: str) -> None:
    with pytest.raises(SaveError, match=said) as caught:
        target_of(Path(name), JAM)
    assert "ame " in str(caught.value)


def test_a_closed_folder_is_told(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("os.access", lambda path, mode: False)
    with pytest.raises(SaveError, match="cannot be written"):
        target_of(Path("plan.json"), JAM)
