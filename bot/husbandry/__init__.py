"""The science: pure functions, one formula each, on the tables that the handbook has loaded."""
