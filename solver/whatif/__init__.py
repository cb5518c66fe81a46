"""What a change of a jam does to its plan: what to move, what it gains and costs."""
