"""Reading: every example of every language, the shapes of answers, and texts meant to harm."""
