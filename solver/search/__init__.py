"""Finds plans: open choices, the strict order of goals, alternatives. Only here is CP-SAT known."""
