"""What the musician wants: the parts of a jam and the intents about them."""
