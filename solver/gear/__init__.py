"""What is on the table: boxes with their jacks, ports, engines, strips and tracks, and the cable kinds."""
