"""hardpan plans the cables and settings of a hardware jam."""
