"""What is due, and the minute loop that says it."""
