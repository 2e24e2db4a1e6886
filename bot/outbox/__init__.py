"""What was said, and its way to the gateway."""
