"""What a batch's record adds up to. Nothing of it is stored: it is folded from the events each
time, so that replaying them gives the same state. Pure; called by the answers, the calendar and
the report.
"""
