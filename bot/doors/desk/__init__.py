"""The desk of a cooperative: pages for its staff, a file each. `door.py` gathers them, `frame.py`
is what all share (who is signed in, roles, forms, words), `templates/` holds their HTML."""
