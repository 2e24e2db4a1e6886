"""Curves as inline SVG that print in black and white: lines told apart by dashes, not by colour.

In: series of points and their names. Out: `Html`. Pure; used by the report.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from html import escape
from math import ceil, floor, log10

from bot.pages.html import Html

Points = Sequence[tuple[float, float]]
WIDTH, HEIGHT = 720, 270
LEFT, RIGHT, TOP, BOTTOM = 56, 14, 12, 42
LEGEND = 20  # pixels for the names below
STEPS = (1, 2, 2.5, 5, 10)
WANTED_TICKS = 5


@dataclass(frozen=True, slots=True)
class Line:
    """A curve. kind: "target" (dashed), "measured" (dots joined), "ahead" (dotted)."""

    name: str
    points: Points
    kind: str = "measured"


@dataclass(frozen=True, slots=True)
class Band:
    """What lies between two curves over the same x."""

    name: str
    low: Points
    high: Points


@dataclass(frozen=True, slots=True)
class Bars:
    """A bar a day."""

    name: str
    points: Points


@dataclass(frozen=True, slots=True)
class Chart:
    """What is drawn. x: first and last day on the axis. zero: whether the y axis begins at 0.
    words: what a reader who can't see it is told."""

    words: str
    x_name: str
    y_name: str
    x: tuple[float, float]
    lines: tuple[Line, ...] = ()
    bands: tuple[Band, ...] = ()
    bars: tuple[Bars, ...] = ()
    zero: bool = True
    marks: tuple[tuple[float, str], ...] = field(default=())


def drawn(chart: Chart, width: int = WIDTH, height: int = HEIGHT) -> Html:
    """The chart as SVG, so many pixels wide and high where nothing scales it."""
    frame = _Frame(chart, width, height)
    whole = height + LEGEND * frame.legend_rows()
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {whole}" '
        'font-family="system-ui, sans-serif" font-size="12" role="img">',
        f"<title>{escape(chart.words)}</title>",
        f'<rect width="{width}" height="{whole}" fill="#fff"/>',
        *frame.axes(),
        *(frame.band(one) for one in chart.bands),
        *(part for one in chart.bars for part in frame.bars(one)),
        *(part for one in chart.lines for part in frame.line(one)),
        *frame.legend(),
        "</svg>",
    ]
    return Html("\n".join(parts))


def figures(chart: Chart) -> tuple[tuple[int, float, float | None], ...]:
    """What was told, as a table: day, figure, and what is usual on that day where it is drawn."""
    usual = {int(x): y for one in chart.lines if one.kind == "target" for x, y in one.points}
    told = [one.points for one in chart.lines if one.kind == "measured"]
    told += [one.points for one in chart.bars]
    return tuple((int(x), y, usual.get(int(x))) for points in told for x, y in points)


def ticks(low: float, high: float) -> list[float]:
    """Round figures from low to high, about five."""
    span = max(high - low, 1e-9)
    raw = span / WANTED_TICKS
    scale = 10 ** floor(log10(raw))
    step = next(scale * one for one in STEPS if scale * one >= raw - 1e-12)
    first = ceil(low / step - 1e-9)
    return [round(step * at, 6) for at in range(first, floor(high / step + 1e-9) + 1)]


class _Frame:
    """Places figures on the paper."""

    def __init__(self, chart: Chart, width: int, height: int) -> None:
        self.chart, self.width, self.height = chart, width, height
        values = [y for points in _all_points(chart) for _, y in points]
        low, high = min(values, default=0.0), max(values, default=1.0)
        if chart.zero:
            low = min(0.0, low)
        room = (high - low or 1.0) * 0.06
        self.low, self.high = (low if chart.zero else low - room), high + room

    def x(self, value: float) -> float:
        first, last = self.chart.x
        share = (value - first) / max(1e-9, last - first)
        return round(LEFT + share * (self.width - LEFT - RIGHT), 1)

    def y(self, value: float) -> float:
        share = (value - self.low) / (self.high - self.low)
        return round(self.height - BOTTOM - share * (self.height - BOTTOM - TOP), 1)

    def axes(self) -> Iterator[str]:
        right, foot = self.width - RIGHT, self.height - BOTTOM
        for value in ticks(self.low, self.high):
            y = self.y(value)
            yield f'<line x1="{LEFT}" x2="{right}" y1="{y}" y2="{y}" stroke="#dde4df"/>'
            yield f'<text x="{LEFT - 6}" y="{y + 4}" text-anchor="end">{value:g}</text>'
        for day in ticks(*self.chart.x):
            x = self.x(day)
            yield f'<line x1="{x}" x2="{x}" y1="{foot}" y2="{foot + 4}" stroke="#1c241f"/>'
            yield f'<text x="{x}" y="{foot + 17}" text-anchor="middle">{day:g}</text>'
        yield f'<path d="M{LEFT},{TOP}V{foot}H{right}" fill="none" stroke="#1c241f"/>'
        middle = (LEFT + right) / 2
        name = escape(self.chart.x_name)
        yield f'<text x="{middle}" y="{foot + 34}" text-anchor="middle">{name}</text>'
        turned = f'transform="translate(13 {(TOP + foot) / 2}) rotate(-90)" text-anchor="middle"'
        yield f"<text {turned}>{escape(self.chart.y_name)}</text>"

    def band(self, one: Band) -> str:
        there = [f"{self.x(x)},{self.y(y)}" for x, y in one.high]
        back = [f"{self.x(x)},{self.y(y)}" for x, y in reversed(one.low)]
        return f'<polygon points="{" ".join(there + back)}" fill="#2f5d43" fill-opacity="0.16"/>'

    def bars(self, one: Bars) -> Iterator[str]:
        first, last = self.chart.x
        wide = max(2.0, 0.7 * (self.width - LEFT - RIGHT) / max(1.0, last - first))
        foot = self.y(max(0.0, self.low))
        drawn = "".join(f"M{self.x(day)},{foot}V{self.y(value)}" for day, value in one.points)
        yield f'<path d="{drawn}" stroke="#8a3b1c" stroke-width="{wide:.1f}"/>'

    def line(self, one: Line) -> Iterator[str]:
        spots = [(self.x(x), self.y(y)) for x, y in one.points]
        if len(spots) > 1:
            path = " ".join(f"{x},{y}" for x, y in spots)
            yield f'<polyline points="{path}" fill="none" {_STROKE[one.kind]}/>'
        if one.kind == "measured":
            dots = "".join(f"M{x},{y}h0" for x, y in spots)
            yield f'<path d="{dots}" stroke="#1c241f" stroke-width="6" stroke-linecap="round"/>'

    def legend(self) -> Iterator[str]:
        for name, sample, x, row in self._placed():
            yield f'<g transform="translate({x} {self.height + 8 + LEGEND * row})">{sample}'
            yield f'<text x="32" y="4">{escape(name)}</text></g>'

    def legend_rows(self) -> int:
        return 1 + max((row for *_, row in self._placed()), default=0)

    def _placed(self) -> Iterator[tuple[str, str, int, int]]:
        """Each name with its sample, beside each other as far as they go."""
        x, row = LEFT, 0
        for name, sample in self._samples():
            if x > LEFT and x + 46 + 7 * len(name) > self.width:
                x, row = LEFT, row + 1
            yield name, sample, x, row
            x += 46 + 7 * len(name)

    def _samples(self) -> Iterator[tuple[str, str]]:
        for line in self.chart.lines:
            dot = '<circle cx="13" cy="0" r="3.2" fill="#1c241f"/>' * (line.kind == "measured")
            yield line.name, f'<line x1="0" x2="26" y1="0" y2="0" {_STROKE[line.kind]}/>{dot}'
        for band in self.chart.bands:
            square = (
                '<rect x="0" y="-6" width="26" height="12" fill="#2f5d43" fill-opacity="0.16"/>'
            )
            yield band.name, square
        for bars in self.chart.bars:
            yield bars.name, '<rect x="8" y="-6" width="10" height="12" fill="#8a3b1c"/>'


_STROKE = {
    "target": 'stroke="#2f5d43" stroke-width="2" stroke-dasharray="7 4"',
    "measured": 'stroke="#1c241f" stroke-width="1.6"',
    "ahead": 'stroke="#1c241f" stroke-width="1.6" stroke-dasharray="2 4"',
}


def _all_points(chart: Chart) -> Iterator[Points]:
    yield from (one.points for one in chart.lines)
    yield from (one.points for one in chart.bars)
    for band in chart.bands:
        yield band.low
        yield band.high
