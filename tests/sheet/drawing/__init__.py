"""Tests of the wiring drawing: what it tells, and that nothing in it lies on anything else."""
