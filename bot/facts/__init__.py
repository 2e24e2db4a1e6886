"""Plain frozen dataclasses that travel between the folders; they import nothing of ours."""
