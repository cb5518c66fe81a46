"""What becomes of a jam when something about it changes: what fewer cables leave of its wishes."""
