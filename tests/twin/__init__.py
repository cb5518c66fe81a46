"""A second planner, plain and slow: one choice for each thing, nothing merged, nothing split, goals one after another.

It shares gear, jams and plans with the solver and nothing of its search, so a mistake there cannot hide in both.
"""
