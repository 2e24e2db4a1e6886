"""`broodpost plan`: the plan of a batch as texts, as a page to print, or for a spreadsheet.

In: how many chicks (or the house), the day, the heat and what is known of prices and nights. Out,
on standard output: the texts that a farmer would get, one HTML page that needs nothing else, or
CSV. Runs offline through the same functions as the service.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

import click

from bot.day.conditions import holds
from bot.day.planned import plan_lines
from bot.day.rows import line_of
from bot.day.standing import standing
from bot.errors import OutsideRange
from bot.facts.farm import Batch, Case, Cooperative, Person, Phone
from bot.handbook.load import content_folder, load_handbook
from bot.handbook.pages import load_pages, page_terms
from bot.handbook.shapes import Handbook
from bot.husbandry.plan import Plan, Prices, birds_of_house, plan_batch
from bot.pages.plan_sheet import Sheet, Step, plan_csv, plan_page
from bot.say.render import Voice, word

HEATS = ("charcoal", "gas", "kerosene", "wood", "bulb", "none")
FORMS = ("html", "csv", "texts")


@click.command("plan")
@click.option("--count", type=int, help="How many chicks.")
@click.option("--house", help="Or the floor: 30 (m2) or 6x5 (m).")
@click.option("--date", "day", required=True, help="The day they come: 2026-03-09.")
@click.option("--heat", type=click.Choice(HEATS), default="charcoal", show_default=True)
@click.option("--night", type=float, help="How cold the nights get, C.")
@click.option("--chick", type=float, help="Price of a chick.")
@click.option("--feed", type=float, help="Price of a bag of feed, 50 kg.")
@click.option("--sale", type=int, default=42, show_default=True, help="Days old at sale.")
@click.option("--lang", default="en", show_default=True)
@click.option("--as", "form", type=click.Choice(FORMS), default="html", show_default=True)
def plan_command(
    count: int | None,
    house: str | None,
    day: str,
    heat: str,
    night: float | None,
    chick: float | None,
    feed: float | None,
    sale: int,
    lang: str,
    form: str,
) -> None:
    """Plan a batch: space, heat, feed, water and cash by week.

    \b
    Example:
      broodpost plan --count 500 --date 2026-03-09 --chick 100 --feed 3200 > plan.html
      broodpost plan --house 6x5 --date 2026-03-09 --heat gas --lang fr --as texts
    """
    handbook = load_handbook(content_folder())
    if lang not in handbook.texts.tongues:
        known = ", ".join(sorted(handbook.texts.tongues))
        raise click.BadParameter(f"one of {known}", param_hint="--lang")
    placed, prices = _date(day), Prices(feed, chick)
    try:
        birds = count if count is not None else _birds(house, handbook)
        plan = plan_batch(
            birds, heat, handbook.husbandry, prices=prices, dawn_c=night, sale_age=sale
        )
    except OutsideRange as error:
        raise click.ClickException(f"{error.name}; valid: {error.valid}") from error
    case, batch = _case(birds, placed, heat, prices, lang)
    if form == "texts":
        for line in plan_lines(case, birds, batch.heat, batch, handbook.husbandry):
            click.echo(word(line, Voice(lang), handbook.texts))
        return
    sheet = _sheet(plan, case, batch, prices, handbook)
    click.echo(plan_csv(sheet) if form == "csv" else plan_page(sheet), nl=False)


def _sheet(plan: Plan, case: Case, batch: Batch, prices: Prices, handbook: Handbook) -> Sheet:
    """The plan with the steps before arrival, in the words of the farmer's language."""
    texts, lang = handbook.texts, case.language
    assert batch.placed_on is not None
    return Sheet(
        plan=plan,
        placed_on=batch.placed_on,
        prices=prices,
        steps=tuple(_steps(case, batch, handbook, lang)),
        language=lang,
        words=load_pages(content_folder())[lang],
        terms=page_terms(content_folder(), texts.tongues)[lang],
        h=handbook.husbandry,
    )


def _date(day: str) -> date:
    try:
        return date.fromisoformat(day)
    except ValueError as error:
        raise click.BadParameter("a day such as 2026-03-09", param_hint="--date") from error


def _birds(house: str | None, handbook: Handbook) -> int:
    """The birds of a floor given as m2 or as length x width."""
    if house is None:
        raise click.UsageError("give --count or --house")
    try:
        sides = [float(one) for one in house.lower().replace(",", ".").split("x")]
    except ValueError as error:
        raise click.BadParameter("30 or 6x5", param_hint="--house") from error
    area = sides[0] if len(sides) == 1 else sides[0] * sides[1]
    return birds_of_house(area, handbook.husbandry)


def _case(birds: int, placed: date, heat: str, prices: Prices, lang: str) -> tuple[Case, Batch]:
    """A farm with nothing but this plan."""
    told = {"feed_bag": prices.feed_bag, "chick": prices.chick}
    known = {name: price for name, price in told.items() if price is not None}
    cooperative = Cooperative(1, "Broodpost", "Africa/Nairobi", "KE", prices=known)
    batch = Batch(1, "planned", count=birds, placed_on=placed, heat=(heat,))
    now = datetime.combine(placed, time(6), UTC)
    phone, person = Phone(1, "+254700000001", "active"), Person(1, lang)
    return Case(now, cooperative, phone, person, lang, (batch,)), batch


def _steps(case: Case, batch: Batch, handbook: Handbook, lang: str) -> Iterator[Step]:
    """The steps before arrival with their days, in the farmer's words."""
    calendar, placed = handbook.calendar, batch.placed_on
    assert placed is not None
    rows = [one for one in calendar.all_rows if one.slot == "morning" and one.last < 0]
    for row in sorted(rows, key=lambda one: (one.first, one.priority)):
        first, last = (placed + timedelta(days=age) for age in (row.first, row.expires))
        now = datetime.combine(first, time(6), UTC)
        at = standing(replace(case, now=now), batch, calendar, now)
        line = None if at is None or not holds(row.when, at) else line_of(row, at)
        if line is not None:
            yield Step(first, last, word(line, Voice(lang), handbook.texts))
