"""Signs in, ranked causes with reasons out. Pure."""
