"""Checks of `broodpost serve` from outside: a real process, real HTTP, a played clock."""
