"""Lines in, plain one-part text out. Pure."""
