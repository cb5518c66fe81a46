"""How many wishes can be met with how many cables: as plain text, as JSON data and as a drawing."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING
from xml.etree import ElementTree as Xml

from solver.codes import Code
from solver.flow.wording import counted, intent_words, listing
from solver.jam.jam import Jam
from solver.sheet.cells import HIDDEN, clean, width_of, wrap
from solver.sheet.edits import Source
from solver.sheet.tables import table

if TYPE_CHECKING:
    from solver.whatif.frontier import Frontier, Point

WIDE, HIGH = 480, 300
LEFT, RIGHT, TOP, BOTTOM = 60, 420, 40, 240
"""Edges of what is drawn, within the drawing."""
MOST_TICKS = 12
_ROOT = {
    "xmlns": "http://www.w3.org/2000/svg",
    "viewBox": f"0 0 {WIDE} {HIGH}",
    "role": "img",
    "aria-labelledby": "wishes-title wishes-desc",
    "font-family": "sans-serif",
    "font-size": "12",
    "stroke": "currentColor",
    "style": "color-scheme: light dark",
}
_LETTERS = {"fill": "currentColor", "stroke": "none"}


def frontier_text(jam: Jam, frontier: Frontier, source: Source, width: int) -> str:
    """Tell, from few cables to many, what can be met and what has to be left out.

    Args:
        jam: What is wished.
        frontier: What can be had.
        source: The jam file.
        width: Cells a line.
    """
    text = wrap(f"{jam.title}: wishes and cables", width)
    text += ["=" * max(map(width_of, text))]
    headline, *notes = frontier_notes(jam, frontier, source)
    text += wrap(headline, width)
    if frontier.points:
        text += ["", *table(*frontier_table(jam, frontier, source), width)]
    for one in notes:
        text += [*([""] if frontier.points else []), *wrap(one, width)]
    return "".join(f"{line}\n" for line in text)


def frontier_table(jam: Jam, frontier: Frontier, source: Source) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """The headers of what can be had, and its rows."""
    headers = ("cables", "wishes met", *(["weight"] if is_weighed(jam) else []), "left out")
    return headers, [row for point in frontier.points for row in _rows(jam, frontier, point, source)]


def frontier_notes(jam: Jam, frontier: Frontier, source: Source) -> list[str]:
    """What is told beside the table: first what all wishes take, then how it is meant and what to do next."""
    if not frontier.points:
        return list(_nothing(jam, frontier, source))
    return [_headline(jam, frontier), *_notes(jam, frontier), *_following(jam, frontier, source)]


def frontier_data(jam: Jam, frontier: Frontier) -> dict[str, object]:
    """The same as JSON data, with the plan of each point."""
    return {
        "title": jam.title,
        "wishes": len(jam.intents),
        "weight": frontier.total,
        "done": frontier.done,
        "points": [
            {
                "cables": point.cables,
                "wishes": wishes_met(jam, point),
                "weight": point.met,
                "left_out": [statement(place) for place in point.left_out],
                "says": [clean(intent_words(jam.intents[place])) for place in point.left_out],
                "proved": point.proved,
                "plan": point.plan.to_json(),
            }
            for point in frontier.points
        ],
    }


def frontier_svg(jam: Jam, frontier: Frontier) -> str:
    """Draw what can be met over the number of cables, as steps: an SVG that needs nothing else.

    Its lines and letters have the colour of the text around it; what it shows is told in words too.
    """
    svg = Xml.Element("svg", _ROOT)
    _put(svg, "title", f"{jam.title}: wishes and cables", id="wishes-title")
    told = [_told(jam, frontier, point) for point in frontier.points]
    _put(svg, "desc", " ".join(told) or "Nothing is known.", id="wishes-desc")
    points = frontier.points
    if points:
        first, last = points[0].cables, points[-1].cables
        _axes(svg, first, last, frontier.total, "weight of the wishes met" if is_weighed(jam) else "wishes met")

        def at(cables: float, met: float) -> tuple[float, float]:
            return _across(cables, first, last), _up(met, frontier.total)

        corners = [at(points[0].cables, points[0].met)]
        for less, more in pairwise(points):
            corners += [at(more.cables, less.met), at(more.cables, more.met)]
        corners.append((RIGHT, corners[-1][1]))
        line = " ".join(f"{x:g},{y:g}" for x, y in corners)
        Xml.SubElement(svg, "polyline", {"points": line, "fill": "none", "stroke-width": "2"})
        for point, words in zip(points, told, strict=True):
            x, y = at(point.cables, point.met)
            dot = Xml.SubElement(svg, "circle", {"cx": f"{x:g}", "cy": f"{y:g}", "r": "5", "fill": "currentColor"})
            _put(dot, "title", words)
            _put(svg, "text", str(point.met), x=f"{x + 8:g}", y=f"{y - 8:g}", **_LETTERS)
    Xml.indent(svg)
    return Xml.tostring(svg, encoding="unicode") + "\n"


def statement(place: int) -> str:
    """The id of an intent by its place counted from 0."""
    return f"intent.{place + 1}"


def wishes_met(jam: Jam, point: Point) -> int:
    """How many intents are met."""
    return len(jam.intents) - len(point.left_out)


def is_weighed(jam: Jam) -> bool:
    """Whether some intents count more than others."""
    return len({intent.weight for intent in jam.intents}) > 1


def _headline(jam: Jam, frontier: Frontier) -> str:
    """What all wishes take and what none takes, as far as that is known."""
    first, last = frontier.points[0], frontier.points[-1]
    count = len(jam.intents)
    alone = counted(first.cables, "cable")
    if not count:
        return f"There is no wish; the parts take {alone}."
    every = {1: "The only wish", 2: "Both wishes together"}.get(count, f"All {count} wishes together")
    take = ("takes" if count == 1 else "take") if last.proved else "can be had with"
    most = counted(last.cables, "cable")
    if last.met < frontier.total:
        cannot = f"{every} cannot be had, with however many cables."
        if count == 1:
            return f"{cannot} Without it, the parts take {most}."
        said = f"{cannot} The most that can be had {'takes' if last.proved else 'is had with'} {most}"
    else:
        said = f"{every} {take} {most}"
        if first is last and frontier.done:
            return f"{said}, and the parts alone take as many: leaving wishes out saves no cable."
    return f"{said}; the parts alone take {alone}." if frontier.done and first is not last else f"{said}."


def _rows(jam: Jam, frontier: Frontier, point: Point, source: Source) -> Iterator[tuple[str, ...]]:
    """A row for a point, and one more for each intent that is left out besides the first."""
    met = f"{wishes_met(jam, point)} of {len(jam.intents)}"
    weight = [f"{point.met} of {frontier.total}"] if is_weighed(jam) else []
    lead = (str(point.cables), met, *weight)
    told = [_left_out(jam, place, source) for place in point.left_out] or ["nothing"]
    yield (*lead, told[0])
    yield from ((*[""] * len(lead), one) for one in told[1:])


def _left_out(jam: Jam, place: int, source: Source) -> str:
    intent = jam.intents[place]
    line = source.line(("intent", place))
    where = f"{statement(place)}, line {line}" if line is not None else statement(place)
    return f"{intent_words(intent)} ({where})"


def _notes(jam: Jam, frontier: Frontier) -> Iterator[str]:
    """How the table is meant, and what of it is proved."""
    points = frontier.points
    if is_weighed(jam):
        yield "The weight of a wish is what its [[intent]] says, or 1; what can be met is chosen by weight."
    if any(more.cables > less.cables + 1 for less, more in pairwise(points)):
        yield "A number of cables that is not in the table leaves as much as the next smaller one that is."
    proved = "with so many cables, no more can be met; with fewer, not as much"
    if all(point.proved for point in points):
        yield f"Proved: {proved}." if len(points) == 1 else f"Proved for each row: {proved}."
    elif len(points) > 1:
        yield f"Proved for all rows but the first: {proved}."
    if not frontier.done:
        yield f"Not decided in the time given: what can be met with fewer than {counted(points[0].cables, 'cable')}."


def _following(jam: Jam, frontier: Frontier, source: Source) -> Iterator[str]:
    """What to do next."""
    if not frontier.done:
        yield "Next, give it more time: --time-limit takes seconds."
    elif any(point.left_out for point in frontier.points):
        if is_weighed(jam) or len(jam.intents) == 1:
            yield f"Next: leave an [[intent]] out of the file, and hardpan plan {source.shell} plans the rest."
        else:
            yield "Next: where one wish matters more than others, add a line such as weight = 3 to its [[intent]]."


def _nothing(jam: Jam, frontier: Frontier, source: Source) -> Iterator[str]:
    if frontier.done:
        yield f"Impossible, proved: even without any wish, the parts of {jam.title} cannot be had together."
        yield f"Next: hardpan explain {source.shell} tells why, and what the cheapest ways out are."
    else:
        yield f"Not decided: in the time given, nothing was found out about cables and wishes. [{Code.UNDECIDED}]"
        yield "Next, give it more time: --time-limit takes seconds."


def _told(jam: Jam, frontier: Frontier, point: Point) -> str:
    met = f"{wishes_met(jam, point)} of {counted(len(jam.intents), 'wish', 'wishes')}"
    weight = f", weight {point.met} of {frontier.total}" if is_weighed(jam) else ""
    gone = [f"{intent_words(jam.intents[place])} ({statement(place)})" for place in point.left_out]
    return f"{counted(point.cables, 'cable').capitalize()}: {met}{weight}; left out: {listing(gone)}."


def _axes(svg: Xml.Element, first: int, last: int, total: int, label: str) -> None:
    """Two axes with a number at each step, or at some where there are many."""
    Xml.SubElement(svg, "path", {"d": f"M{LEFT} {TOP}V{BOTTOM}H{RIGHT}", "fill": "none"})
    for cables in _ticks(first, last):
        x = f"{_across(cables, first, last):g}"
        _put(svg, "text", str(cables), x=x, y=str(BOTTOM + 18), **_LETTERS, **{"text-anchor": "middle"})
    for met in _ticks(0, total):
        y = f"{_up(met, total) + 4:g}"
        _put(svg, "text", str(met), x=str(LEFT - 8), y=y, **_LETTERS, **{"text-anchor": "end"})
    middle = {"x": str((LEFT + RIGHT) // 2), "y": str(BOTTOM + 42), "text-anchor": "middle"}
    _put(svg, "text", "cables", **_LETTERS, **middle)
    _put(svg, "text", label, **_LETTERS, x=str(LEFT - 40), y=str(TOP - 20))


def _ticks(first: int, last: int) -> range:
    return range(first, last + 1, 1 + (last - first) // MOST_TICKS)


def _across(cables: float, first: int, last: int) -> float:
    """Where a number of cables is, some way in from the axis; the steps leave room behind the last."""
    return LEFT + (RIGHT - LEFT) * (cables - first + 0.5) / (last - first + 1)


def _up(met: float, total: int) -> float:
    return BOTTOM - (BOTTOM - TOP) * met / max(total, 1)


def _put(above: Xml.Element, tag: str, text: str, **keys: str) -> None:
    """Add an element with a text, in which nothing stands that XML cannot hold."""
    safe = "".join(HIDDEN if letter in "\ufffe\uffff" else letter for letter in clean(text))
    Xml.SubElement(above, tag, keys).text = safe
