"""Numbered migrations, run by `records.migrate`."""
