"""JSON Schemas of the files that hardpan reads, so that editors complete and check them."""

from pathlib import Path
from typing import Literal

Kind = Literal["box", "jam", "set"]


def schema_file(kind: Kind) -> Path:
    """The schema that comes with hardpan for a kind of file."""
    return Path(__file__).parent / f"{kind}.json"
