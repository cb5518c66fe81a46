"""Tests of jam and box files made by questions."""
