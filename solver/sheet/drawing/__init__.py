"""The wiring of a plan as a drawing: boxes in columns, sound from left to right, every cable in a lane of its own.

docs/background/drawing.md tells how it is laid out. The steps, each in its file: ``told`` (what is drawn),
``columns`` (which box stands in which column), ``cards`` and ``labels`` (how big everything is), ``stacking`` (how
far down), ``lanes`` and ``routes`` (the way of each cable), ``layout`` (the best of some arrangements), ``paint`` and
``frame`` (the drawing).
"""

from xml.etree import ElementTree as Xml

from solver.jam.jam import Jam
from solver.plans import Plan
from solver.sheet.drawing import pen
from solver.sheet.drawing.columns import in_columns
from solver.sheet.drawing.frame import HEADING, describe, draw_foot, draw_heading, foot_height
from solver.sheet.drawing.labels import written
from solver.sheet.drawing.layout import Layout
from solver.sheet.drawing.look import ROOT, style_sheet
from solver.sheet.drawing.paint import Painter
from solver.sheet.drawing.told import Told

MARGIN = 18.0
"""The space around everything, in units of the drawing."""
LEAST = 360.0
"""How wide a drawing is at least."""


def drawing(jam: Jam, plan: Plan, *, heading: bool = True) -> str:
    """Draw the wiring of a plan as one SVG document that needs nothing else and looks well inside a page too.

    It has proportions but no size of its own: whoever shows it says how wide it is.

    Args:
        jam: The jam that the plan is for.
        plan: The plan; it may break rules, as long as its parts live on engines of the jam.
        heading: Whether the title stands above the drawing.
    """
    told = Told(jam, plan)
    nets, cards = told.nets, told.cards
    placed = in_columns(cards, nets, jam.leader, jam.ears)
    said = written(nets)
    found = Layout(cards, nets, placed, said).best()
    width = max(found.width + 2 * MARGIN, LEAST)
    top = MARGIN + (HEADING if heading else 0)
    height = top + found.height + foot_height(nets, width - 2 * MARGIN) + MARGIN
    svg = Xml.Element("svg", _root(width, height))
    describe(svg, jam, nets)
    Xml.SubElement(svg, "style").text = style_sheet()
    pen.box(svg, "paper", (0, 0), (width, height))
    if heading:
        draw_heading(svg, jam, len(nets), (MARGIN, MARGIN), width - 2 * MARGIN)
    left = (width - found.width) / 2
    moved = Xml.SubElement(svg, "g", {"transform": f"translate({pen.number(left)} {pen.number(top)})"})
    Painter(moved, found, said).paint(nets)
    draw_foot(svg, nets, (MARGIN, top + found.height), width - 2 * MARGIN)
    Xml.indent(svg)
    return Xml.tostring(svg, encoding="unicode") + "\n"


def _root(width: float, height: float) -> dict[str, str]:
    return {
        "xmlns": "http://www.w3.org/2000/svg",
        "class": ROOT,
        "viewBox": f"0 0 {pen.number(width)} {pen.number(height)}",
        "role": "img",
        "aria-labelledby": f"{ROOT}-title {ROOT}-desc",
        "font-family": "sans-serif",
    }
