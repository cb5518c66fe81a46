"""``python -m solver.schemas``: make the schemas anew, in the package and in docs/schemas, after a change of a model.

It is run in the source, whose docs/reference/formats.md has the words.
"""

from solver.schemas import schema_file
from solver.schemas.making import FORMATS, write

if __name__ == "__main__":
    write([schema_file("box").parent, FORMATS.parents[1] / "schemas"])
