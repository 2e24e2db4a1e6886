"""Proofreads content/: what no loader can see by one file alone."""
