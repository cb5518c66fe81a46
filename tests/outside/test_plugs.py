"""Sizes of audio plugs: IEC 60603-11 and an IEC standard of connectors for audio."""

from typing import get_args

import pytest

from solver.gear.cables import AudioPlug, audio_kind
from tests.outside.checks import check


@check(
    "The big plug is a quarter of an inch, 6.35 mm; labels that say 6.3 mean the same",
    source="IEC 60603-11 (read in a secondary text); 25.4 mm an inch (computed)",
    kind="published",
    right={"a quarter": 1 / 4},
    wrong=1 / 8,
)
def test_the_big_plug(inch: float) -> None:
    assert max(float(plug) for plug in get_args(AudioPlug)) == pytest.approx(25.4 * inch)


@check(
    "Big and small plugs have two poles or three, so four plain kinds of lead join like with like",
    source="IEC standard of connectors for audio, section 4.1 (excerpt of a national translation)",
    kind="published",
    right={"sizes": ("6.35", "3.5")},
    wrong=("6.35", "2.5"),
)
def test_two_sizes_and_two_or_three_poles(sizes: tuple[AudioPlug, ...]) -> None:
    assert set(sizes) == set(get_args(AudioPlug))
    kinds = {audio_kind(size, size, stereo) for size in sizes for stereo in (False, True)}
    assert kinds == {"6.35 mono", "6.35 stereo", "3.5 mono", "3.5 stereo"}
