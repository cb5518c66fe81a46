"""What a jam is called on the screen of each box, and where it is saved there."""

from solver.jam.jam import Jam
from solver.sheet.cells import clean, clusters

RECALL_HEADERS = ("box", "name on its screen", "saved at")


def recall_rows(jam: Jam) -> list[tuple[str, str, str]]:
    """Of each box: its name on the table, the jam's title as far as its screen shows it, and where the jam is saved."""
    return [
        (name, "".join(clusters(clean(jam.title))[: box.name_length]).strip(), jam.recall.get(name, "-"))
        for name, box in jam.boxes.items()
    ]
