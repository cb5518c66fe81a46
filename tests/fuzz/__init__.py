"""Files as chance and malice make them: read, or refused in plain words, within time and memory."""
