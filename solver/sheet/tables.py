"""Tables that fit a width, whatever letters the names are written in."""

from collections.abc import Iterable, Sequence

from tabulate import tabulate

from solver.sheet.cells import clusters, width_of, wrap

GAP = 2
"""Cells between two columns; a header takes as many more than its words."""

_STAND_INS = 0xF0000
_FILLER = "\U0010fffd"


def table(headers: Sequence[str], rows: Iterable[Sequence[str]], width: int) -> list[str]:
    """Lay rows out under their headers; cells that are too long go over several lines.

    Args:
        headers: one word or two for each column.
        rows: a cell for each header.
        width: cells of the terminal a line may take.

    Returns:
        Lines without a space at their end; none where there are no rows.
    """
    given = [tuple(row) for row in rows]
    if not given:
        return []
    natural = [
        max(width_of(header) + GAP, *map(width_of, column))
        for header, column in zip(headers, zip(*given, strict=True), strict=True)
    ]
    widths = shares(natural, width)
    stand_ins = _StandIns()
    text = tabulate(
        [[stand_ins.put(_folded(cell, share)) for cell, share in zip(row, widths, strict=True)] for row in given],
        headers=[_folded(header, share - GAP) for header, share in zip(headers, widths, strict=True)],
        tablefmt="simple",
        disable_numparse=True,
        stralign="left",
    )
    return [stand_ins.take(line).rstrip() for line in text.split("\n")]


def _folded(cell: str, width: int) -> str:
    return "\n".join(wrap(cell, width))


def shares(natural: Sequence[int], width: int) -> list[int]:
    """Share a line among columns: narrow ones get what they need, the widest give way.

    Args:
        natural: cells that each column would like.
        width: cells of the whole line, gaps and all.

    Returns:
        At least one cell a column, and together with the gaps at most ``width`` where that can be.
    """
    room = width - GAP * (len(natural) - 1)
    left = list(range(len(natural)))
    found = list(natural)
    while left:
        even = max(room // len(left), 1)
        content = [i for i in left if natural[i] <= even]
        if not content:
            spare = max(room - even * len(left), 0)
            for place, i in enumerate(left):
                found[i] = even + (1 if place < spare else 0)
            break
        room -= sum(natural[i] for i in content)
        left = [i for i in left if i not in content]
    return found


class _StandIns:
    """Letters that are not one cell wide, swapped for signs that are, while a table is laid out."""

    def __init__(self) -> None:
        self._sign: dict[str, str] = {}

    def put(self, text: str) -> str:
        """Swap every piece beyond ASCII for a sign of its own, filled up to its width."""
        return "".join(piece if piece.isascii() else self._swap(piece) for piece in clusters(text))

    def _swap(self, piece: str) -> str:
        sign = self._sign.setdefault(piece, chr(_STAND_INS + len(self._sign)))
        return sign + _FILLER * (width_of(piece) - 1)

    def take(self, text: str) -> str:
        """Swap the signs back."""
        meant = {sign: piece for piece, sign in self._sign.items()}
        return "".join(meant.get(sign, sign) for sign in text.replace(_FILLER, ""))
