"""A small jam whose names try to break what is made of them, with a plan made by hand."""

from solver.jam.jam import Jam
from solver.plans import Plan
from tests.building import box, cable, jam, lives, named, plan

LONG = ("Long " * 40)[:198] + "er"
"""As long as a name may be."""
MARKUP = "<b onload=\"alert('1')\">&amp; ]]> </svg><script>alert(2)</script>"
PICTURE = "\U0001f468\u200d\U0001f469\u200d\U0001f467 \U0001f3b9\ufe0f \u30b7\u30f3\u30bb"
RIGHT_TO_LEFT = "\u05e9\u05dc\u05d5\u05dd (1)"
STEERING = "turn\u202ener\x1b[2J\uffff\x00 back"
ACCENTS = "e\u0301" * 20


def nasty() -> tuple[Jam, Plan]:
    """Two boxes, a mixer and a module, that carry every kind of name everywhere."""
    names = (LONG, MARKUP, PICTURE, RIGHT_TO_LEFT, STEERING, ACCENTS)
    desk, module = MARKUP.replace("/", "\\"), LONG[:199]
    boxes = {
        desk: box(
            RIGHT_TO_LEFT,
            out=[named(LONG, left=LONG[:198] + "L", right=LONG[:198] + "R")],
            in_=[named(f"I{n}", mono=name) for n, name in enumerate(names)],
            strip=[named(f"S{n}", from_=f"I{n}") for n in range(len(names))],
            track=[named(f"T{n}", channel=n + 1) for n in range(len(names))],
            midi=[named(f"OUT {name}"[:200], way="out") for name in names],
        ),
        module: box(
            PICTURE,
            out=[named(f"O{n}", mono=name) for n, name in enumerate(names)],
            engine=[named(f"E{n}", to=[f"O{n}"]) for n in range(len(names))],
            midi=[named(f"IN {name}"[:200], way="in") for name in names],
        ),
    }
    parts = {name: lives(f"{module}/E{n}", f"{desk}/T{n}", n + 1, outlet=f"O{n}") for n, name in enumerate(names)}
    cables = [cable("6.35 mono", f"{module}/{name}", f"{desk}/{name}") for name in names]
    cables += [cable("din", f"{desk}/{f'OUT {name}'[:200]}", f"{module}/{f'IN {name}'[:200]}") for name in names[1:3]]
    wired = jam(boxes, list(parts), title=f"{MARKUP} {RIGHT_TO_LEFT}")
    return wired, plan(parts, cables)
