"""Tests of the patch sheet in a real browser."""
