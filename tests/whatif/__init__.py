"""Tests of what a change of a jam does to its plan."""
