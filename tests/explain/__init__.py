"""What is said of a jam that is impossible is what a slow and plain twin finds too."""
