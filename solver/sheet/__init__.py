"""What people read, print and play: the plan as text, page, table, drawing and MIDI file."""
