"""Tests of the search: its model, its pieces, alternatives, and how it stops."""
