"""What people read: the plan as text."""
