"""An exhaustive planner for tiny rigs, and the proof that the real one agrees with it."""
