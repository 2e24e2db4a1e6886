"""Processes are killed in the middle of their work; nothing is lost and nothing is said twice."""
