"""The rivals of the weight forecast: line, logistic and Gompertz curves fitted by least squares to
one chick alone (Levenberg-Marquardt from several starts, the best fit taken)."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from math import exp, inf, isfinite

from bot.husbandry.linear import dot, solve

Curve = Callable[[float, Sequence[float]], float]
Points = Sequence[tuple[float, float]]
STEPS = 300
TINY = 1e-6


@dataclass(frozen=True)
class Fit:
    """Parameters of a curve and the sum of squares that is left."""

    parameters: tuple[float, ...]
    left: float


def line(t: float, p: Sequence[float]) -> float:
    return p[0] + p[1] * t


def logistic(t: float, p: Sequence[float]) -> float:
    """p: final weight, age of half of it, scale in days."""
    return p[0] / (1 + exp(min(700.0, (p[1] - t) / p[2])))


def gompertz(t: float, p: Sequence[float]) -> float:
    """p: final weight, how far below it at age 0, rate a day."""
    return p[0] * exp(-p[1] * exp(min(700.0, -p[2] * t)))


def starts_of(curve: Curve, points: Points) -> tuple[tuple[float, ...], ...]:
    """Where the search begins: sensible final weights and ages for the data at hand."""
    last = points[-1][1]
    if curve is line:
        return ((points[0][1], 1.0),)
    shapes = ((10.0, 5.0), (25.0, 8.0)) if curve is logistic else ((3.0, 0.08), (4.0, 0.04))
    return tuple((times * last, *shape) for times in (2.0, 5.0, 20.0) for shape in shapes)


def fit(curve: Curve, points: Points, starts: Iterable[Sequence[float]] | None = None) -> Fit:
    """The best least-squares fit of a curve to (age, weight)."""
    begun = starts_of(curve, points) if starts is None else starts
    return min((_descend(curve, points, start) for start in begun), key=lambda one: one.left)


def _descend(curve: Curve, points: Points, start: Sequence[float]) -> Fit:
    here, left, damping = tuple(start), _left(curve, points, start), 1e-3
    for _ in range(STEPS):
        slopes = [_slopes(curve, t, here) for t, _ in points]
        errors = [w - curve(t, here) for t, w in points]
        columns = list(zip(*slopes, strict=True))
        normal = [[dot(a, b) for b in columns] for a in columns]
        for i, row in enumerate(normal):
            row[i] = row[i] * (1 + damping) + 1e-300
        try:
            step = solve(normal, [dot(a, errors) for a in columns])
        except ValueError:
            damping *= 10
            continue
        there = tuple(a + b for a, b in zip(here, step, strict=True))
        left_there = _left(curve, points, there)
        if left_there < left:
            gained, here, left, damping = left - left_there, there, left_there, damping / 5
            if gained <= 1e-14 * left:
                break
        else:
            damping *= 4
            if damping > 1e15:
                break
    return Fit(here, left)


def _left(curve: Curve, points: Points, p: Sequence[float]) -> float:
    try:
        found = sum((w - curve(t, p)) ** 2 for t, w in points)
    except (OverflowError, ZeroDivisionError):
        return inf
    return found if isfinite(found) else inf


def _slopes(curve: Curve, t: float, p: Sequence[float]) -> list[float]:
    found = []
    for i, value in enumerate(p):
        step = TINY * max(abs(value), TINY)
        more, less = ([*p[:i], value + sign * step, *p[i + 1 :]] for sign in (1, -1))
        found.append((curve(t, more) - curve(t, less)) / (2 * step))
    return found
