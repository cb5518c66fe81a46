"""Each statement that posts a rule or judges a plan is left out in turn, and a test fails for each."""
