"""Pages that need nothing but themselves, and one without a script: wishes against cables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from solver.jam.jam import Jam
from solver.sheet.cells import clean
from solver.sheet.edits import Source
from solver.sheet.frontier import frontier_notes, frontier_svg, frontier_table

if TYPE_CHECKING:
    from solver.whatif.frontier import Frontier


def frontier_page(jam: Jam, frontier: Frontier, source: Source) -> str:
    """How many wishes can be met with how many cables: the drawing, then the table that says the same in words.

    Args:
        jam: What is wished.
        frontier: What can be had.
        source: The jam file.
    """
    headline, *notes = frontier_notes(jam, frontier, source)
    headers, rows = frontier_table(jam, frontier, source)
    return rendered(
        "frontier.html",
        title=clean(jam.title),
        headline=headline,
        plot=Markup(frontier_svg(jam, frontier)),
        headers=headers,
        rows=[[clean(cell) for cell in row] for row in rows],
        notes=notes,
    )


def rendered(template: str, **values: object) -> str:
    """A page from a template of the folder ``pages``; every value is escaped that is not marked as safe."""
    pages = Environment(loader=PackageLoader("solver.sheet", "pages"), autoescape=True, undefined=StrictUndefined)
    return pages.get_template(template).render(values) + "\n"
