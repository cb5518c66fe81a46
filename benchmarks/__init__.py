"""Measures how long plans take, how that grows, and what other ways of planning take for the same."""
