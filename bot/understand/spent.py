"""What money was spent on, and how much a purchase cost. In: a `Scene`. Pure; called by `facts`."""

from __future__ import annotations

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


def paid(scene: Scene, bought: Quantity) -> float | None:
    """What was paid for feed or fuel: "2 bags of feed 6400", "2 bags at 3200 each"."""
    money = [one.value for one in scene.of_kind("money")]
    money += [one.value for one in scene.plain_numbers if one.value >= LEAST_MONEY]
    if len(money) != 1:
        return None
    pieces = bought.value if bought.kind == "bags" else bought.bags
    return money[0] * pieces if pieces and scene.has("each") else money[0]
