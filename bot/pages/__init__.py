"""Printable pages: the sheet of a plan, the report of a batch. Pure: figures in, HTML out."""
