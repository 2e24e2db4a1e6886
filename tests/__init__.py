"""Tests mirror bot/; see DEVELOPERS.md."""
