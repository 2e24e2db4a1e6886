"""Small systems of linear equations with a symmetric positive matrix, and quantiles. Pure.
Called by forecast and brooder: a handful of unknowns, so no library of arrays is needed."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt
from statistics import NormalDist

Matrix = Sequence[Sequence[float]]


def solve(matrix: Matrix, right: Sequence[float]) -> tuple[float, ...]:
    """x with matrix x = right, by the Cholesky factor. matrix: n x n, symmetric, positive definite
    (ValueError when it is not); right and x: n numbers."""
    lower = _cholesky(matrix)
    size = len(right)
    half: list[float] = []
    for i in range(size):
        known = sum(lower[i][k] * half[k] for k in range(i))
        half.append((right[i] - known) / lower[i][i])
    found = [0.0] * size
    for i in reversed(range(size)):
        known = sum(lower[k][i] * found[k] for k in range(i + 1, size))
        found[i] = (half[i] - known) / lower[i][i]
    return tuple(found)


def dot(one: Sequence[float], other: Sequence[float]) -> float:
    """The sum of products of two rows of the same length."""
    return sum(a * b for a, b in zip(one, other, strict=True))


def quantile(share: float, freedom: float | None = None) -> float:
    """The quantile of the normal curve, or of Student's t with `freedom` degrees by its expansion
    in 1 / freedom (Abramowitz and Stegun 26.7.5, from memory); good to 0.01 from 4 degrees on."""
    z = NormalDist().inv_cdf(share)
    if freedom is None:
        return z
    first = (z**3 + z) / 4
    second = (5 * z**5 + 16 * z**3 + 3 * z) / 96
    third = (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384
    return z + first / freedom + second / freedom**2 + third / freedom**3


def _cholesky(matrix: Matrix) -> list[list[float]]:
    lower: list[list[float]] = []
    for i, row in enumerate(matrix):
        made: list[float] = []
        for j in range(i + 1):
            other = made if j == i else lower[j]
            rest = row[j] - sum(made[k] * other[k] for k in range(j))
            if j == i:
                if rest <= 0:
                    raise ValueError("the matrix is not positive definite")
                made.append(sqrt(rest))
            else:
                made.append(rest / lower[j][j])
        lower.append(made)
    return lower
