"""Measurements, one file a name; run by scripts/bench and not collected by pytest."""
