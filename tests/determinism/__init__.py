"""Tests that the same files always give the same answer, and that nothing is loaded before it is needed."""
