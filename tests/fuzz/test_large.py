"""Large and nasty files are read or refused within time and memory, which a child of its own is given no more of."""

import random
import subprocess
import sys
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

import pytest

from tests.showing import ROOT, SCENARIOS

pytest.importorskip("resource")

SECONDS = 10
"""Of the processor, for one file: 5 on the machines on which hardpan is measured, twice as many for slow ones."""
MEGABYTES = 500

BY_HAND, SAVED = 990_000, 5_000_000
"""Bytes of a file just small enough to be looked at, and of a plan."""

CHILD = """
import resource, sys, time
from pathlib import Path
from solver.reading import BadInput, read_box, read_jam, read_jam_or_set, read_plan

jam = read_jam(sys.argv[1])
unit = 1 if sys.platform == "darwin" else 1024
for name in sys.argv[4:]:
    reads = (lambda file: read_plan(file, jam),) if name.endswith("json") else (read_box, read_jam_or_set)
    for read in reads:
        print(name, flush=True)
        spent = int(time.process_time())
        resource.setrlimit(resource.RLIMIT_CPU, (spent + int(sys.argv[2]), resource.RLIM_INFINITY))
        try:
            read(Path(name))
        except BadInput as error:
            assert 0 < len(error.problems) <= 1100, len(error.problems)
            assert len(str(error)) < 1_000_000
        most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * unit / 1e6
        assert most < int(sys.argv[3]), f"{most:.0f} MB"
print("done")
"""

Lines = Callable[[int], str]


def repeated(line: Lines, most: int) -> str:
    """So many numbered lines as go into a file."""

    def lines() -> Iterator[str]:
        left = most
        for number in count():
            one = line(number)
            left -= len(one)
            if left < 0:
                return
            yield one

    return "".join(lines())


def jam(after: str) -> str:
    tiller = (SCENARIOS / "boxes" / "tiller.toml").as_posix()
    return f'title = "x"\nleader = "a"\nlisten = "a/MAIN"\n{after}\n[boxes]\na = "{tiller}"\n'


def listed(opens: str, item: str, closes: str, size: int) -> str:
    return opens + ",".join([item] * (size // (len(item) + 1))) + closes


FILES: dict[str, dict[str, Callable[[], str | bytes]]] = {
    "text": {
        "one-line.toml": lambda: f'title = "{"x" * BY_HAND}"',
        "too-large.toml": lambda: "# x\n" * (SAVED // 4),
        "empty-lines.toml": lambda: "\r\n" * (BY_HAND // 2),
        "nothing.toml": lambda: b"\0" * BY_HAND,
        "noise.toml": lambda: random.Random(1).randbytes(BY_HAND),
        "wide.toml": lambda: ("\ufeff" + "a = 1\n" * (BY_HAND // 14)).encode("utf-16"),
        "noise.json": lambda: random.Random(2).randbytes(SAVED),
        "one-text.json": lambda: f'{{"title": "{"x" * SAVED}"}}',
    },
    "depth": {
        "open.toml": lambda: "a = " + "[" * BY_HAND,
        "nested.toml": lambda: "a = " + "[" * (BY_HAND // 2) + "]" * (BY_HAND // 2),
        "inline.toml": lambda: "a = " + "{a=" * (BY_HAND // 4) + "1" + "}" * (BY_HAND // 4),
        "one-key.toml": lambda: ".".join(["a"] * (BY_HAND // 2)) + " = 1",
        "open.json": lambda: "[" * SAVED,
        "nested.json": lambda: "[" * (SAVED // 2) + "]" * (SAVED // 2),
        "objects.json": lambda: '{"a":' * (SAVED // 5),
    },
    "numbers": {
        "whole.toml": lambda: f"tempo = {'9' * BY_HAND}",
        "broken.toml": lambda: f"tempo = 0.{'9' * BY_HAND}",
        "whole.json": lambda: f'{{"title": {"9" * SAVED}}}',
    },
    "tables": {
        "keys.toml": lambda: jam(repeated(lambda n: f"key{n} = 1\n", BY_HAND)),
        "few-keys.toml": lambda: jam(repeated(lambda n: f"key{n} = 1\n", 120_000)),
        "dotted.toml": lambda: repeated(lambda n: f"a{n}.b.c = 1\n", BY_HAND),
        "parts.toml": lambda: jam("") + repeated(lambda n: f'[part.p{n}]\non = "nobody{n}"\n', BY_HAND),
        "few-parts.toml": lambda: jam("") + repeated(lambda n: f"[part.p{n}]\nk{n} = 1\n", 20_000),
        "intents.toml": lambda: jam("") + repeated(lambda n: f'[[intent]]\nlayer = ["q{n}"]\n', BY_HAND),
        "boxes.toml": lambda: jam("") + repeated(lambda n: f'b{n} = "gone{n}.toml"\n', BY_HAND),
        "few-boxes.toml": lambda: jam("") + repeated(lambda n: f'b{n} = "gone{n}.toml"\n', 150_000),
        "outlets.toml": lambda: "[[out]]\n" * (BY_HAND // 8),
        "engines.toml": lambda: 'name = "x"\n' + repeated(lambda n: '[[engine]]\nname = "e"\nchannel = 99\n', 36_000),
        "channels.toml": lambda: 'name = "x"\n[[engine]]\nname = "e"\nchannels = [' + "1," * (BY_HAND // 2) + "]\n",
    },
    "plans": {
        "cables.json": lambda: listed(
            '{"title":"x","parts":{},"cables":[', '{"kind":"din","from":"a/b","to":"c/d"}', "]}", SAVED
        ),
        "few-cables.json": lambda: listed(
            '{"title":"x","parts":{},"cables":[', '{"kind":"din","from":"a/b","to":"c/d"}', "]}", 350_000
        ),
        "wrong-cables.json": lambda: listed(
            '{"title":"x","parts":{},"cables":[', '{"kind":1,"from":2,"to":3,"x":4}', "]}", 300_000
        ),
        "keys.json": lambda: "{" + repeated(lambda n: f'"k{n}":1,', SAVED) + '"k":1}',
        "same-keys.json": lambda: listed("{", '"a":1', "}", SAVED),
        "names.json": lambda: listed('{"title":"x","cables":[],"parts":{},"cautions":[', "1", "]}", SAVED),
        "many-lists.json": lambda: (
            '{"title":"x","cables":[],"parts":{"p":{"strips":{'
            + repeated(lambda n: f'"b{n}":[' + "1," * 4000 + "1],", SAVED)
            + '"b":[]}}}}'
        ),
    },
}


@pytest.mark.parametrize("group", FILES)
def test_large_files_take_no_more_than_they_may(group: str, tmp_path: Path) -> None:
    for name, made in FILES[group].items():
        said = made()
        (tmp_path / name).write_bytes(said if isinstance(said, bytes) else said.encode())
    words = [str(SCENARIOS / "low-tide.toml"), str(SECONDS), str(MEGABYTES), *FILES[group]]
    done = subprocess.run(
        [sys.executable, "-c", CHILD, *words],
        cwd=tmp_path,
        env={"PYTHONPATH": str(ROOT)},
        capture_output=True,
        check=False,
        encoding="utf-8",
    )
    assert done.stdout.endswith("done\n"), f"{done.stdout.split()[-1:]}: exit {done.returncode}\n{done.stderr}"
