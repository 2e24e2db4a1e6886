"""What money was spent on, and how much a purchase cost. In: a `Scene`. Pure; called by `facts`."""

from __future__ import annotations

from bot.understand.numbers import Number
from bot.understand.quantities import Quantity
from bot.understand.scene import Scene

FUELS = ("charcoal", "gas", "kerosene", "wood")
LEAST_MONEY = 100  # a smaller figure without a currency is no sum of money
# The kind of an expense (ledger.money.SPENT_ON) by the classes of words that tell it, in order:
# "transport of feed" is transport.
_TOLD_BY = (
    ("transport", ("transport",)),
    ("wages", ("wages",)),
    ("treatment", ("vaccine", "medicine", "treat")),
    ("feed", ("feed",)),
    ("litter", ("litter",)),
    ("heat", ("heat", *(f"@heat:{one}" for one in FUELS))),
    ("chicks", ("bird",)),
)


def spent_on(scene: Scene) -> str | None:
    """The kind of an expense; None where the text does not tell."""
    return next((kind for kind, names in _TOLD_BY if scene.has(*names)), None)


def of_the_purchase(scene: Scene, at: int) -> bool:
    """Whether a token belongs to what was bought, where a text tells of a purchase and of a sale:
    "bought feed 100kg 7200 and sold 12 at 650". The verb before it decides, else the first."""
    bought = {span.start for span in scene.text.spans.get("bought", ())}
    bought -= {span.start for span in scene.text.spans.get("earned", ())}
    sold = {span.start for span in scene.text.spans.get("sold", ())}
    if not bought or not sold or bought & sold:
        return False
    before = [one for one in (*bought, *sold) if one <= at]
    return (max(before) if before else min(*bought, *sold)) in bought


def paid(scene: Scene, bought: Quantity) -> float | None:
    """What was paid for feed or fuel: "2 bags of feed 6400", "2 bags at 3200 each"."""
    figures: list[Number | Quantity] = [*scene.of_kind("money")]
    figures += [one for one in scene.plain_numbers if one.value >= LEAST_MONEY]
    if scene.sold_at is not None:
        figures = [one for one in figures if of_the_purchase(scene, one.start)]
    if len(figures) != 1:
        return None
    pieces = bought.value if bought.kind == "bags" else bought.bags
    of_one = pieces and scene.has("each") and not _in_all(scene, figures[0])
    return figures[0].value * pieces if pieces and of_one else figures[0].value


def _in_all(scene: Scene, figure: Number | Quantity) -> bool:
    """ "9300 all", "jumla 9300", "45000 en tout"."""
    names = ("total", "@whole", "whole_all", "@answer:in_all")
    near = [figure.start - 1, figure.end]
    near = [at for at in near if not scene.text.at("each", at)]
    return any(scene.text.at(name, at) for name in names for at in near)
