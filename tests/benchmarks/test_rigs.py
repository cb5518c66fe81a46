"""Rigs are the same on every run, are what their variant says, and come back from their files."""

from pathlib import Path

import pytest

import solver
from benchmarks.by_hand import by_hand
from benchmarks.files import write
from benchmarks.rigs import SIZES, Size, rig
from benchmarks.variants import VARIANTS
from solver.outcome import Impossible, Planned
from solver.reading import read_jam

TINY = Size(2, 3, 4)


@pytest.mark.parametrize("variant", VARIANTS)
def test_a_seed_always_gives_the_same_rig(variant: str) -> None:
    assert rig(TINY, variant, seed=7).table() == rig(TINY, variant, seed=7).table()


def test_seeds_give_different_rigs() -> None:
    assert rig(SIZES[1], seed=1).table() != rig(SIZES[1], seed=2).table()


def test_the_sizes_have_their_parts() -> None:
    assert [len(rig(size).jam().parts) for size in SIZES] == [6, 22, 42, 82]


@pytest.mark.parametrize("size", SIZES)
def test_no_more_tracks_sound_than_channels_suffice_for(size: Size) -> None:
    assert len(rig(size).jam().layers) <= 14


@pytest.mark.parametrize("variant", VARIANTS)
def test_a_variant_is_possible_as_it_says(variant: str) -> None:
    outcome = solver.plan(rig(TINY, variant).jam(), time_limit=None)
    assert isinstance(outcome, Planned if VARIANTS[variant].possible else Impossible)


@pytest.mark.parametrize("variant", VARIANTS)
def test_a_rig_comes_back_from_its_files(variant: str, tmp_path: Path) -> None:
    made = rig(TINY, variant)
    assert read_jam(write(made, tmp_path)) == made.jam()


def test_a_musician_finds_a_plan_by_hand_that_follows_every_rule() -> None:
    jam = rig(TINY).jam()
    assert solver.check(jam, by_hand(jam)) == ()
