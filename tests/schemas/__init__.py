"""Tests of the schemas: that they say what the reader does."""
