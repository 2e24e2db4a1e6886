"""Keeps the weather foretold for the first cooperative. In: a connection, days with their warmest
and coldest air [C]. Called by wiring."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

from sqlalchemy import Connection, select, update

from bot.records import tables as t

KEPT = timedelta(days=21)  # so long a past night still tells of a brooder


def keep_forecast(
    connection: Connection, found: Mapping[date, tuple[float, float]], today: date
) -> None:
    """Add what is foretold to what was; days too old to tell anything go."""
    row = connection.execute(
        select(t.cooperative.c.id, t.cooperative.c.forecast).order_by(t.cooperative.c.id).limit(1)
    ).first()
    if row is None:
        return
    new = {day.isoformat(): list(pair) for day, pair in found.items()}
    oldest = (today - KEPT).isoformat()
    kept = {day: pair for day, pair in {**row.forecast, **new}.items() if day >= oldest}
    connection.execute(
        update(t.cooperative).where(t.cooperative.c.id == row.id).values(forecast=kept)
    )
