"""Text in, meaning out. Pure."""
