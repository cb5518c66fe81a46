"""Tests of what the benchmarks are run on; nothing here is timed."""
