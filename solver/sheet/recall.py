"""What the project of a jam is called on the screen of each box, and where it is saved there."""

from solver.jam.jam import Jam
from solver.plans import Plan

RECALL_HEADERS = ("box", "name on its screen", "saved at")


def recall_rows(jam: Jam, plan: Plan) -> list[tuple[str, str, str]]:
    """Of each box: its name on the table, the project's name, and where the jam is saved; "-" for none.

    Args:
        jam: what is planned.
        plan: one that has been completed.
    """
    return [(box, plan.recall[box].name if box in plan.recall else "-", jam.recall.get(box, "-")) for box in jam.boxes]
