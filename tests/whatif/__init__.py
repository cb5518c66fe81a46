"""What becomes of a jam when something about it changes is what trying everything finds too."""
