"""Texts of many layouts changed in place: every change of every scenario, and invented layouts."""

import tomllib
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from solver.jam.editing import Cut, Put, Step, after, without
from solver.reading.lines import lines
from solver.reading.rewriting import RewriteError, rewritten

SCENARIOS = sorted(p for folder in ("scenarios", "scenarios/impossible") for p in Path(folder).glob("*.toml"))


def paths(data: Any, above: tuple[str | int, ...] = ()) -> Iterator[tuple[tuple[str | int, ...], Any]]:
    """Every path in some data with what is there."""
    inside = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in inside:
        yield (*above, key), value
        yield from paths(value, (*above, key))


def changes(data: dict[str, Any]) -> Iterator[tuple[list[Step], int]]:
    """Every single change of a jam, with how many lines it adds or changes at most."""
    for path, value in paths(data):
        if not isinstance(value, dict | list):
            yield [Put(path, 77 if isinstance(value, int) else "z")], 1
        yield [Cut(path)], 1 if isinstance(path[-1], int) or path[-2:-1] == ("with",) or len(path) > 1 else 0
    for name in data.get("part", {}):
        cuts = list(without(data, parts={name}))
        yield list(cuts), len(cuts)
        yield [Put(("part", name, "on"), "tiller/PAD 9")], 1
    for name in data["boxes"]:
        cuts = list(without(data, boxes={name}))
        yield list(cuts), len(cuts)
    yield [Put(("cables", "6.35 mono"), 5)], 3
    yield [Put(("part", "new one"), {"on": "x", "notes": 2})], 4
    yield [Put(("intent", 99), {"treat": ["x"], "with": {"ducking": 5}})], 4
    yield [Put(("boxes", "new"), "new.toml")], 1
    yield [Put(("recall",), {"new": "by hand"})], 3


@pytest.mark.parametrize("file", SCENARIOS, ids=lambda file: file.stem)
def test_every_single_change_of_every_scenario(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    data, where, old = tomllib.loads(text), lines(text), text.splitlines(True)
    for steps, most in changes(data):
        new = rewritten(text, steps)
        assert tomllib.loads(new) == after(data, steps)
        spoken_of = {old[at - 1] for path, at in where.items() for s in steps if path[: len(s.path)] == s.path}
        gone, added = Counter(old) - Counter(new.splitlines(True)), Counter(new.splitlines(True)) - Counter(old)
        assert gone.keys() <= spoken_of | {"\n"}, steps
        assert added.total() <= most, steps
        kept = iter(old)
        assert all(line in kept for line in new.splitlines(True) if line not in added and line != "\n"), steps
        assert "\n\n\n" not in new
        assert new.endswith("\n") and not new.endswith("\n\n")


@pytest.mark.parametrize("file", SCENARIOS, ids=lambda file: file.stem)
def test_what_is_put_and_cut_again_leaves_no_trace(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    data = tomllib.loads(text)
    news: list[Put] = [Put(("part", "new"), {"on": "x"}), Put(("boxes", "new"), "n"), Put(("new",), {"new": "n"})]
    news += [Put(("intent", len(data["intent"])), {"clock": ["new"]})] if "intent" in data else []
    news += [Put((*path, "new"), 1) for path, value in paths(data) if isinstance(value, dict) and path != ("part",)]
    news += [Put((*path, len(value)), "new") for path, value in paths(data) if isinstance(value, list) and path[1:]]
    for put in news:
        assert rewritten(rewritten(text, [put]), [Cut(put.path)]) == text


NAMES = st.sampled_from(["kick", "a b", "6.35 mono", 'q"q', "it's", "🥁", "ü", "-", "", "on", "1"])
LEAVES = st.one_of(st.integers(-5, 200), st.sampled_from(["x", "", "tiller/PAD 1", "# no remark", 'a"b', "[x]", "é"]))
VALUES = st.one_of(
    LEAVES, st.lists(LEAVES, max_size=3), st.dictionaries(NAMES, LEAVES, max_size=2), st.booleans(), st.just(0.5)
)
REMARKS = st.sampled_from(["", "", " # why", "  # [x]", "\t#"])
INLINE = {"part = {": "[part", "intent = [": "[intent", "boxes.x": "[boxes"}
"""What cannot be written with a header as well."""
GAPS = st.sampled_from(["", "\n", "\n", "\n\n", "# own\n", "\n# above\n", "# below\n\n", " \n"])


def key(name: str) -> str:
    """A name as a key, in one quote or another."""
    bare = name.isascii() and name.isalpha()
    return name if bare else f'"{name}"' if '"' not in name else f"'{name}'"


def plain(value: Any) -> str:
    """A value on one line."""
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{key(k)} = {plain(v)}" for k, v in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ",".join(map(plain, value)) + "]"
    return str(value).lower() if not isinstance(value, str) else f"'{value}'"


@st.composite
def layouts(draw: st.DrawFn, wild: bool) -> str:
    """The text of a file with parts, intents, cables and boxes; a wild one writes them in any way that TOML has."""

    def spread(value: Any) -> str:
        if not wild or not isinstance(value, list) or draw(st.booleans()):
            return plain(value)
        joints = ["\n", " ", "", "\n  # own\n", " # why\n", "\n\n", "\t"]
        parts = [draw(st.sampled_from(joints))]
        for i, item in enumerate(value):
            comma = "," if i + 1 < len(value) or draw(st.booleans()) else ""
            parts += [plain(item), draw(st.sampled_from(joints)), comma, draw(st.sampled_from(joints))]
        return "[" + "".join(parts) + "]"

    def pairs(prefix: str = "", least: int = 0) -> str:
        some = draw(st.dictionaries(NAMES, VALUES, min_size=least, max_size=3))
        equals = draw(st.sampled_from([" = ", "=", "    = "]))
        return "".join(f"{prefix}{key(k)}{equals}{spread(v)}{draw(REMARKS)}\n" for k, v in some.items())

    def table(header: str) -> str:
        return f"{draw(GAPS)}{header}{draw(REMARKS)}\n{pairs()}"

    top = draw(GAPS) + "title = 'T'\n" + pairs("z." if wild and draw(st.booleans()) else "")
    blocks = [table(f"[part.{key(name)}]") for name in draw(st.sets(NAMES, max_size=3))]
    blocks += [table("[[intent]]") for _ in range(draw(st.integers(0, 3)))]
    blocks += [table(header) for header in ("[cables]", "[boxes]") if draw(st.booleans())]
    if wild:
        top += "".join(pairs(f"part.{key(name)}.") for name in draw(st.sets(NAMES, max_size=2)))
        few = st.lists(st.dictionaries(NAMES, VALUES, max_size=2), max_size=2)
        top += draw(st.sampled_from(["", f"list = {spread(draw(few))}\n", "intent = [{ a = 1 }, {b=2}]\n"]))
        top += draw(st.sampled_from(["", "part = { kick = {}, b.c = 1, b.d = 2 }\n", "boxes.x = 'y'\nboxes.y.z = 1\n"]))
        more = [
            "[part.kick.more]",
            "[[part.x.list]]",
            "[part]",
            "[[intent]]\n[intent.with]",
            "[[intent]]\n[[intent.l]]",
        ]
        blocks += [table(header) for header in draw(st.lists(st.sampled_from(more), max_size=3))]
        blocks = [block for block in blocks if not any(inline in top for inline in INLINE if INLINE[inline] in block)]
    text = top + "".join(draw(st.permutations(blocks))) + draw(GAPS)
    text = text.removesuffix("\n") if draw(st.booleans()) else text
    return text.replace("\n", "\r\n") if draw(st.booleans()) else text


@st.composite
def some_steps(draw: st.DrawFn, data: dict[str, Any]) -> list[Step]:
    """Some steps about what is in the data, or new to it."""
    known = list(paths(data))
    tables = [path for path, value in known if isinstance(value, dict) and path not in (("part",), ("intent",))]
    leaves = [path for path, value in known if not isinstance(value, dict) and path != ("intent",)]
    table = st.dictionaries(NAMES, VALUES, max_size=3)
    puts = st.one_of(
        st.builds(Put, st.sampled_from(leaves), VALUES),
        st.builds(lambda path, name, value: Put((*path, name), value), st.sampled_from([(), *tables]), NAMES, LEAVES),
        st.builds(lambda name, value: Put(("part", name), value), NAMES, table),
        st.builds(lambda value: Put(("intent", len(data.get("intent", ()))), value), table),
        st.builds(lambda name, value: Put(("boxes", name), value), NAMES, LEAVES),
        st.builds(lambda name, value: Put(("cables", name), value), NAMES, LEAVES),
    )
    cuts = st.builds(Cut, st.sampled_from([path for path, _ in known]))
    return draw(st.lists(st.one_of(puts, cuts), min_size=1, max_size=3))


MANY = settings(
    max_examples=300, deadline=None, derandomize=True, database=None, suppress_health_check=list(HealthCheck)
)


@MANY
@given(st.data())
def test_common_layouts_are_never_refused(data: st.DataObject) -> None:
    text = data.draw(layouts(wild=False))
    before = tomllib.loads(text)
    steps = data.draw(some_steps(before))
    try:
        wanted = after(before, steps)
    except (LookupError, TypeError, ValueError):
        with pytest.raises(RewriteError):
            rewritten(text, steps)
        return
    new = rewritten(text, steps)
    assert tomllib.loads(new) == wanted
    assert ("\r\n" in new) <= ("\r\n" in text or "\n" not in text)
    assert new.count("\n") == new.count("\r\n") or "\r\n" not in text


@MANY
@given(st.data())
def test_wild_layouts_are_changed_rightly_or_refused(data: st.DataObject) -> None:
    text = data.draw(layouts(wild=True))
    try:
        before = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        with pytest.raises(RewriteError):
            rewritten(text, [Put(("title",), "new")])
        return
    steps = data.draw(some_steps(before))
    try:
        new = rewritten(text, steps)
    except RewriteError:
        return
    assert tomllib.loads(new) == after(before, steps)
    assert Counter(remarks(text)) >= Counter(remarks(new))


def remarks(text: str) -> list[str]:
    """The lines that are comments only."""
    return [line for line in text.splitlines() if line.lstrip().startswith("#")]
