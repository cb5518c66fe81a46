"""Draws how the time of a plan grows with the size of a rig, as an SVG picture with logarithmic axes."""

from math import log10
from typing import Any

WIDTH, HEIGHT, LEFT, TOP = 640, 360, 60, 40
ACROSS, DOWN = (3.5, 100.0), (0.01, 100.0)
"""Parts from left to right, seconds from bottom to top."""

LINES = {"hardpan": "#1b6ca8", "twin": "#b5541c", "highs": "#5b7f2b"}
NAMES = {"hardpan": "hardpan", "twin": "plain model, CP-SAT", "highs": "plain model, HiGHS"}


def plot(found: dict[str, Any]) -> str:
    """The picture of all measured sizes; a hollow mark is a rival that its time limit stopped."""
    points: dict[str, list[tuple[float, float, bool]]] = {name: [] for name in LINES}
    for size, one in found["growth"].items():
        points["hardpan"].append((parts(size), one["build"] + one["search"] + one["follow"], True))
    for size, ways in found["rivals"].items():
        for way in ("twin", "highs"):
            if "seconds" in ways[way] and ways[way]["status"] != "not installed":
                points[way].append((parts(size), ways[way]["seconds"], ways[way]["status"] != "undecided"))
    body = [*_axes(), *(line for name, listed in points.items() for line in _curve(name, sorted(listed)))]
    for place, name in enumerate(LINES):
        body.append(f'<text x="{WIDTH - 180}" y="{HEIGHT - 90 + 16 * place}" fill="{LINES[name]}">{NAMES[name]}</text>')
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" font-family="sans-serif"'
    return "\n".join([f'{head} font-size="12">', '<rect width="100%" height="100%" fill="white"/>', *body, "</svg>\n"])


def parts(size: str) -> int:
    """How many parts a rig of a size such as "(4, 8, 8)" has."""
    modules, engines, _ = map(int, size.strip("()").split(","))
    return 2 + modules * max(2, int(engines * 0.7))


def _x(value: float) -> float:
    low, high = map(log10, ACROSS)
    return round(LEFT + (log10(value) - low) / (high - low) * (WIDTH - LEFT - 20), 1)


def _y(value: float) -> float:
    low, high = map(log10, DOWN)
    return round(HEIGHT - 40 - (log10(value) - low) / (high - low) * (HEIGHT - 40 - TOP), 1)


def _axes() -> list[str]:
    lines = [f'<text x="{LEFT}" y="22" font-weight="bold">Seconds to plan, by parts (both logarithmic)</text>']
    for power in range(-2, 3):
        y = _y(10.0**power)
        lines.append(f'<line x1="{LEFT}" x2="{WIDTH - 20}" y1="{y}" y2="{y}" stroke="#ddd"/>')
        lines.append(f'<text x="{LEFT - 8}" y="{y + 4}" text-anchor="end">{10.0**power:g} s</text>')
    counts = (6, 12, 22, 42, 82)
    return lines + [f'<text x="{_x(n)}" y="{HEIGHT - 20}" text-anchor="middle">{n} parts</text>' for n in counts]


def _curve(name: str, points: list[tuple[float, float, bool]]) -> list[str]:
    colour = LINES[name]
    if not points:
        return []
    path = " ".join(f"{_x(across)},{_y(seconds)}" for across, seconds, _ in points)
    lines = [f'<polyline points="{path}" fill="none" stroke="{colour}" stroke-width="2"/>']
    for across, seconds, done in points:
        fill = colour if done else "white"
        lines.append(f'<circle cx="{_x(across)}" cy="{_y(seconds)}" r="4" fill="{fill}" stroke="{colour}"/>')
    return lines
