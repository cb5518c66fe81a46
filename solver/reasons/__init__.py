"""Says why a jam is impossible and what the cheapest way out is, or why its plan is as it is."""
