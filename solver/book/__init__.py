"""The book of a folder: its jams and sets, where each is saved, and whether what was planned for it still holds."""
