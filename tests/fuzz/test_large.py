"""Large and nasty files are read or refused within time and memory."""

import random
from pathlib import Path

import pytest

from tests.fuzz.bounds import BY_HAND, SAVED, Made, Read, read_within_bounds, repeated
from tests.showing import SCENARIOS

pytest.importorskip("resource")


def jam(after: str) -> str:
    tiller = (SCENARIOS / "boxes" / "tiller.toml").as_posix()
    return f'title = "x"\nleader = "a"\nlisten = "a/MAIN"\n{after}\n[boxes]\na = "{tiller}"\n'


def listed(opens: str, item: str, closes: str, size: int) -> str:
    return opens + ",".join([item] * (size // (len(item) + 1))) + closes


FILES: dict[str, dict[str, Made]] = {
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
        "headers.toml": lambda: repeated(lambda n: f"[b{n}{'.a' * 7}]\n", BY_HAND),
        "long-headers.toml": lambda: repeated(lambda n: f"[b{n}{'.a' * 60}]\n", BY_HAND),
        "long-dotted.toml": lambda: repeated(lambda n: f"b{n}{'.a' * 60} = 1\n", BY_HAND),
        "dotted.toml": lambda: repeated(lambda n: f"a{n}.b.c = 1\n", BY_HAND),
        "parts.toml": lambda: jam("") + repeated(lambda n: f'[part.p{n}]\non = "nobody{n}"\n', BY_HAND),
        "few-parts.toml": lambda: jam("") + repeated(lambda n: f"[part.p{n}]\nk{n} = 1\n", 20_000),
        "intents.toml": lambda: jam("") + repeated(lambda n: f'[[intent]]\nlayer = ["q{n}"]\n', BY_HAND),
        "boxes.toml": lambda: jam("") + repeated(lambda n: f'b{n} = "gone{n}.toml"\n', BY_HAND),
        "few-boxes.toml": lambda: jam("") + repeated(lambda n: f'b{n} = "gone{n}.toml"\n', 150_000),
    },
    "box tables": {
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
        "same-keys-deep.json": lambda: listed('{"x":[' * 400 + "{", '"a":1\n', "}" + "]}" * 400, SAVED),
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
    files = FILES[group]
    kinds: tuple[Read, ...] = ("jam",) if group == "tables" else ("box", "jam")
    reads = [(how, name) for name in files for how in (("plan",) if name.endswith("json") else kinds)]
    read_within_bounds(files, reads, tmp_path)
