"""Texts changed in place: whole texts before and after, and what is refused."""

import tomllib
from typing import Any

import pytest

from solver.jam.editing import Cut, Put, Step, after
from solver.reading.rewriting import RewriteError, rewritten
from solver.reading.writing import exact

JAM = """\
# A jam.
title  = "T"     # the name
tempo  = 118.5\t# slow

[part.kick]
on = "x"  # this one

# The first wish.
[[intent]]
treat = [
  "kick",  # low
  # a remark of its own
  "bass"   # lower
]
with  = { ducking = 60, reverb = 5 }  # both

[part.bass]
on    = "y"
# between
sound = "synth"
# a last remark

[[intent]]
clock = ["y", "z"]

[boxes]
"x 1" = "x.toml"
"""

NO_END = "[a]\nx = 1\n[b]\ny = 2"
WINDOWS = "[a]\r\nx = 1 # c\r\n\r\n[b]\r\ny = [\r\n  1,\r\n  2\r\n]\r\n"
INLINE = "intent = [ { clock = ['a'] }, { play = ['b'] } ] # all\npart = { kick = {}, bass = { on = 'x' } }\n"
DOTTED = 'part.kick.on = "x" # why\npart.bass.on = "y"\npart.bass.notes = 2\n'

IN_JAM: list[tuple[Step, str, str]] = [
    (Put(("title",), "A longer name"), '"T"  ', '"A longer name"  '),
    (Put(("tempo",), 90), "118.5\t#", "90\t#"),
    (Put(("part", "kick", "on"), "z"), '"x"  #', '"z"  #'),
    (Put(("intent", 0, "treat", 1), "pad"), '"bass" ', '"pad" '),
    (Put(("intent", 0, "with", "reverb"), 0), "reverb = 5", "reverb = 0"),
    (Put(("boxes", "x 1"), "y.toml"), "x.toml", "y.toml"),
    (Put(("mains",), "mono"), "# slow\n", '# slow\nmains = "mono"\n'),
    (Put(("part", "kick", "notes"), 4), "this one\n", "this one\nnotes = 4\n"),
    (Put(("intent", 1, "name"), "w"), '"z"]\n', '"z"]\nname = "w"\n'),
    (Put(("intent", 0, "with", "two words"), 1), "reverb = 5 }", 'reverb = 5, "two words" = 1 }'),
    (Put(("intent", 1, "shift", "bass"), -12), '"z"]\n', '"z"]\nshift = { bass = -12 }\n'),
    (Put(("intent", 0, "treat", 7), "pad"), '"bass"   # lower\n', '"bass",   # lower\n  "pad"\n'),
    (Put(("intent", 1, "clock", 2), "b"), '"z"]', '"z", "b"]'),
    (Put(("boxes", 'é "q"'), "q.toml"), 'x.toml"\n', 'x.toml"\n"é \\"q\\"" = "q.toml"\n'),
    (Put(("cables",), {"6.35 mono": 3}), 'x.toml"\n', 'x.toml"\n\n[cables]\n"6.35 mono" = 3\n'),
    (Put(("cables", "3.5"), 1), 'x.toml"\n', 'x.toml"\n\n[cables]\n"3.5" = 1\n'),
    (
        Put(("part", "a b"), {"on": "x", "notes": 2}),
        "# a last remark\n",
        '# a last remark\n\n[part."a b"]\non = "x"\nnotes = 2\n',
    ),
    (Put(("part", "pad"), {}), "# a last remark\n", "# a last remark\n\n[part.pad]\n"),
    (
        Put(("intent", 2), {"treat": ["b"], "with": {"reverb": 2}}),
        '"z"]\n',
        '"z"]\n\n[[intent]]\ntreat = ["b"]\nwith = { reverb = 2 }\n',
    ),
    (Cut(("tempo",)), "tempo  = 118.5\t# slow\n", ""),
    (Cut(("intent", 0, "treat")), JAM[JAM.index("treat") : JAM.index("with")], ""),
    (Cut(("intent", 0, "treat", 0)), '  "kick",  # low\n', ""),
    (
        Cut(("intent", 0, "treat", 1)),
        JAM[JAM.index(",  # low") : JAM.index("]\nwith")],
        "  # low\n  # a remark of its own\n",
    ),
    (Cut(("intent", 0, "with", "ducking")), "ducking = 60, ", ""),
    (Cut(("intent", 0, "with", "reverb")), ", reverb = 5", ""),
    (Cut(("intent", 1, "clock", 0)), '"y", ', ""),
    (Cut(("intent", 0)), JAM[JAM.index("[[intent]]") : JAM.index("[part.bass]")], "\n"),
    (Cut(("intent", 1)), '[[intent]]\nclock = ["y", "z"]\n\n', ""),
    (Cut(("part", "kick")), '[part.kick]\non = "x"  # this one\n\n', ""),
    (Cut(("part", "bass")), JAM[JAM.index("[part.bass]") : JAM.index("# a last")], ""),
    (Cut(("boxes",)), '\n[boxes]\n"x 1" = "x.toml"\n', ""),
    (Cut(("boxes", "x 1")), '"x 1" = "x.toml"\n', ""),
]

WHOLE: list[tuple[str, list[Step], str]] = [
    # line ends
    (NO_END, [Put(("b", "z"), 3)], NO_END + "\nz = 3"),
    (NO_END, [Put(("c",), {"z": 3})], NO_END + "\n\n[c]\nz = 3"),
    (NO_END, [Cut(("b",))], "[a]\nx = 1\n"),
    (WINDOWS, [Put(("a", "z"), 3)], WINDOWS.replace("# c\r\n", "# c\r\nz = 3\r\n")),
    (WINDOWS, [Put(("c", "z"), 3)], WINDOWS + "\r\n[c]\r\nz = 3\r\n"),
    (WINDOWS, [Put(("b", "y", 2), 3)], WINDOWS.replace("  2\r\n", "  2,\r\n  3\r\n")),
    (WINDOWS, [Cut(("b", "y", 1))], WINDOWS.replace("1,\r\n  2", "1")),
    (WINDOWS, [Cut(("a",))], WINDOWS[WINDOWS.index("[b]") :]),
    ("", [Put(("a",), 1)], "a = 1\n"),
    ("", [Put(("a", "b"), 1)], "[a]\nb = 1\n"),
    ("# only a remark", [Put(("a", "b"), 1)], "# only a remark\n\n[a]\nb = 1"),
    # inline tables and lists
    (INLINE, [Put(("intent", 2), {"match": ["c"]})], INLINE.replace(" ] #", ', { match = ["c"] } ] #')),
    (INLINE, [Cut(("intent", 0))], INLINE.replace("{ clock = ['a'] }, ", "")),
    (INLINE, [Put(("part", "kick", "on"), "x")], INLINE.replace("{}", '{ on = "x" }')),
    (INLINE, [Put(("part", "pad"), {})], INLINE.replace(" } }", " }, pad = {} }")),
    (INLINE, [Cut(("part", "bass", "on"))], INLINE.replace("{ on = 'x' }", "{}")),
    (INLINE, [Cut(("intent", 1)), Cut(("intent", 0))], "intent = [] # all\n" + INLINE.splitlines(True)[1]),
    ("a = [1, 2,]\n", [Cut(("a", 1))], "a = [1,]\n"),
    ("a = [1, 2,]\n", [Put(("a", 2), 3)], "a = [1, 2, 3,]\n"),
    ("a = [ 1\n, 2\n, 3\n]\n", [Cut(("a", 1))], "a = [ 1\n, 3\n]\n"),
    ("a = [ 1\n, 2\n, 3\n]\n", [Cut(("a", 2))], "a = [ 1\n, 2\n]\n"),
    ("a = [1, 2, # c\n 3]\n", [Cut(("a", 1))], "a = [1, # c\n 3]\n"),
    ("a = [1, # c\n 3]\n", [Cut(("a", 1))], "a = [1 # c\n ]\n"),
    ("a = [\n  # none\n]\n", [Put(("a", 0), 1)], "a = [\n  # none\n  1\n]\n"),
    ("a = [\n\t1, # one\n]\n", [Put(("a", 1), 2)], "a = [\n\t1, # one\n\t2,\n]\n"),
    ("a = [\n  1,\n  { b = 1,\tc = '''\n'''}, # c\n]\n", [Cut(("a", 1))], "a = [\n  1,\n]\n"),
    ("a = [\n  1\n  ,\n]\n", [Put(("a", 1), 2)], "a = [\n  1, 2\n  ,\n]\n"),
    # dotted keys
    ("p.x.a = 1\n[p.x.b]\nc = 1\n", [Cut(("p", "x"))], "p = {}\n"),
    (DOTTED, [Put(("part", "kick", "on"), "z")], DOTTED.replace('"x"', '"z"')),
    (DOTTED, [Put(("part", "kick", "notes"), 3)], DOTTED.replace("why\n", "why\npart.kick.notes = 3\n")),
    (DOTTED, [Put(("part", "pad"), {"on": "b"})], DOTTED + 'part.pad = { on = "b" }\n'),
    (DOTTED, [Cut(("part", "bass"))], 'part.kick.on = "x" # why\n'),
    (DOTTED, [Cut(("part", "kick"))], "".join(DOTTED.splitlines(True)[1:])),
    (DOTTED, [Cut(("part", "kick", "on"))], DOTTED.replace('.on = "x" # why', " = {}")),
    (DOTTED, [Cut(("part", "kick")), Cut(("part", "bass"))], "part = {}\n"),
    ("a = { b.c = 1, b.d = 2, e = 3 }\n", [Cut(("a", "b"))], "a = { e = 3 }\n"),
    ("a = { b.c = 1, e = 3 }\n", [Put(("a", "b", "d"), 2)], "a = { b.c = 1, e = 3, b.d = 2 }\n"),
    ("a = [{ b.c = 1 }]\n", [Cut(("a", 0, "b", "c"))], "a = [{ b = {} }]\n"),
    ("a = [{ b = 1 }]\n", [Cut(("a", 0, "b"))], "a = [{}]\n"),
    # the last of its kind leaves an empty table or list
    ("t = 1\n\n[[intent]]\na = 1\n", [Cut(("intent", 0))], "t = 1\nintent = []\n"),
    ("[part.x] # c\non = 1\n\n[b]\n", [Cut(("part", "x"))], "[part]\n\n[b]\n"),
    ("[p.x]\na = 1\n[p.x.b]\nc = 1\n", [Cut(("p", "x"))], "[p]\n"),
    ("[part]\n[part.x]\non = 1\n", [Cut(("part", "x"))], "[part]\n"),
    # the first of its kind
    (
        "t = 1\n",
        [Put(("intent", 0), {"a": 1}), Put(("intent", 1), {"b": 2})],
        "t = 1\n\n[[intent]]\na = 1\n\n[[intent]]\nb = 2\n",
    ),
    ("t = 1\n", [Put(("part", "x"), {"on": 1})], "t = 1\n\n[part.x]\non = 1\n"),
    ("t = 1\n", [Put(("part",), {"x": {"on": 1}, "y": {}})], "t = 1\n\n[part.x]\non = 1\n\n[part.y]\n"),
    ("# top\n\n# a\n[a]\n", [Put(("t",), 1)], "# top\n\nt = 1\n\n# a\n[a]\n"),
    ("intent = []\n", [Put(("intent", 0), {"a": 1})], "intent = [{ a = 1 }]\n"),
    # tables below tables
    ("[[i]]\na = 1\n[i.with]\nb = 2\n\n[[i]]\na = 3\n", [Cut(("i", 0))], "[[i]]\na = 3\n"),
    ("[[i]]\na = 1\n[i.with]\nb = 2\n", [Put(("i", 1), {"a": 2})], "[[i]]\na = 1\n[i.with]\nb = 2\n\n[[i]]\na = 2\n"),
    ("[[i]]\na = 1\n[i.with]\nb = 2\n", [Put(("i", 0, "c"), 2)], "[[i]]\na = 1\nc = 2\n[i.with]\nb = 2\n"),
    ("[[i]]\na = 1\n\n[[i]]\nb = 1\n", [Put(("i",), [1])], "i = [1]\n"),
    ("[[i]]\na = 1\n\n[[i]]\nb = 1\n", [Put(("i",), [{"a": 2}])], "[[i]]\na = 2\n"),
    ("[p.a]\nx = 1\ny = 1\n", [Put(("p", "a"), {"y": 1, "z": 3})], "[p.a]\ny = 1\nz = 3\n"),
    # comments right above a header stay with it
    ("[part.a]\n# b\n[b]\n", [Put(("part", "c"), {})], "[part.a]\n\n[part.c]\n\n# b\n[b]\n"),
    # what is written as it was stays as it was
    ("a = 'x' # c\nb = 0x10\n", [Put(("a",), "x"), Put(("b",), 16)], "a = 'x' # c\nb = 0x10\n"),
    # names of all sorts
    ('[part.\'a "b"\']\non = 1\n[part."🥁"]\n', [Cut(("part", 'a "b"', "on"))], '[part.\'a "b"\']\n[part."🥁"]\n'),
    ('[part."🥁"]\n', [Put(("part", "🥁", "on"), "ü")], '[part."🥁"]\non = "ü"\n'),
    ("[ part . x ]\nx = 1\n", [Put(("part", "x", "y"), 1)], "[ part . x ]\nx = 1\ny = 1\n"),
    ("\t[a]\n\tx = 1\n", [Put(("a", "y"), 1)], "\t[a]\n\tx = 1\n\ty = 1\n"),
    # several steps at once; paths are those of before
    (
        "[[i]]\na = [1, 2, 3]\n\n[[i]]\nb = 1\n\n[[i]]\nc = 1\n",
        [Cut(("i", 1)), Cut(("i", 0, "a", 0)), Cut(("i", 0, "a", 2)), Put(("i", 2, "c"), 5), Put(("i", 3), {"d": 1})],
        "[[i]]\na = [2]\n\n[[i]]\nc = 5\n\n[[i]]\nd = 1\n",
    ),
]


@pytest.mark.parametrize(("step", "old", "new"), IN_JAM, ids=lambda case: str(case)[:40])
def test_one_step_changes_one_place_of_a_jam(step: Step, old: str, new: str) -> None:
    assert JAM.count(old) == 1
    assert rewritten(JAM, [step]) == JAM.replace(old, new)
    assert tomllib.loads(rewritten(JAM, [step])) == after(tomllib.loads(JAM), [step])
    windows = JAM.replace("\n", "\r\n")
    assert rewritten(windows, [step]) == windows.replace(old.replace("\n", "\r\n"), new.replace("\n", "\r\n"))


@pytest.mark.parametrize(("text", "steps", "new"), WHOLE, ids=lambda case: str(case)[:40])
def test_whole_texts(text: str, steps: list[Step], new: str) -> None:
    assert rewritten(text, steps) == new
    assert tomllib.loads(new) == after(tomllib.loads(text), steps)


def test_new_keys_and_tables_come_last_in_the_data_too() -> None:
    steps = [Put(("part", "pad"), {"on": "b"}), Put(("part", "kick", "notes"), 4), Put(("mains",), "mono")]
    data = tomllib.loads(rewritten(JAM, steps))
    assert list(data["part"]) == ["kick", "bass", "pad"]
    assert list(data["part"]["kick"]) == ["on", "notes"]
    assert list(data) == ["title", "tempo", "mains", "part", "intent", "boxes"]


VALUES = [
    1e16,
    -0.5,
    1e-7,
    float("inf"),
    '\x00\x7f\u2028\\"\n\t',
    {},
    {"a b": [{"": {}}, []]},
    True,
    [[1], ["x"]],
    ("x",),
]


@pytest.mark.parametrize("value", VALUES, ids=repr)
def test_values_are_read_as_they_were_meant(value: Any) -> None:
    assert tomllib.loads(rewritten("a = 1 # c\n", [Put(("a",), value)])) == {
        "a": list(value) if isinstance(value, tuple) else value
    }
    assert "\n" not in exact(value)


@pytest.mark.parametrize(
    ("text", "step", "named"),
    [
        ("a = 1\n", Cut(("b",)), "b"),
        ("a = 1\n", Put(("a", 0), 1), "a.1"),
        ("a = [1]\n", Cut(("a", 3)), "a.4"),
        ("a = [1]\n", Cut(("a", -1)), "a.0"),
        ("a = [1]\n", Put(("a", "b"), 1), "a.b"),
        ("[[i]]\n", Put(("i", 1), 5), "i.2"),
        ("[[i]]\n[[i]]\n", Put(("i", 0), 5), "i.1"),
        ("a = 1\n", Put(("a",), None), "a"),
        ("a = 1\n", Put(("a",), "\ud800"), "a"),
        ("a = 1\n", Put(("a",), float("nan")), "a"),
        ("a = 1\n", Put(("a",), 2**70), "a"),
        ("a = 1\n", Cut(()), "the file"),
        ("a = \n", Put(("a",), 1), "a"),
    ],
    ids=repr,
)
def test_what_cannot_be_done_is_refused_by_name(text: str, step: Step, named: str) -> None:
    with pytest.raises(RewriteError) as caught:
        rewritten(text, [step])
    assert str(caught.value).startswith(f"{named}: ")
    assert caught.value.path == step.path


def test_the_first_step_that_fails_is_named() -> None:
    with pytest.raises(RewriteError, match=r'^part\."a b"\.on: there is nothing of that name'):
        rewritten(JAM, [Put(("tempo",), 3), Cut(("title",)), Cut(("part", "a b", "on"))])
