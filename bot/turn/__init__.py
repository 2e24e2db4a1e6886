"""One message in, one answer out: the spine."""
