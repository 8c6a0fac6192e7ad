#!/usr/bin/env python3
"""Coefficients of the polynomials of numeric/kernels_batch.hpp and observer/fundamentals_batch.hpp that were fitted with it, and their errors.

Usage: data/fit_polynomials.py      (needs python3-mpmath)

Each is the polynomial of its degree whose largest relative error over the interval is least: Remez' exchange from the extrema of Chebyshev's
polynomial, in 60 digits. The error is that of the coefficients rounded to their type, summed exactly.
"""
import struct

import mpmath
from mpmath import mpf

mpmath.mp.dps = 60


def share(z):
    """(1 - e^-z) / z."""
    return sum((-z) ** k / mpmath.factorial(k + 1) for k in range(30)) if z < mpf("0.5") else -mpmath.expm1(-z) / z


def power_of_two(r):
    """(2^r - 1) / r."""
    x = r * mpmath.log(2)
    return mpmath.log(2) * sum(x ** k / mpmath.factorial(k + 1) for k in range(40))


def exponential(x):
    return mpmath.exp(x)


# Name, function, interval, degree in double and in float.
WANTED = [
    ("2^r = 1 + r p(r)", power_of_two, "-0.5", "0.5", 8, 4),
    ("e^x, small", exponential, "-0.053", "0.053", 6, 3),
    ("(1 - e^-z) / z", share, "0", "2", 11, None),
    ("(1 - e^-z) / z, small", share, "0", "0.1", 5, 3),
]


def value(coefficients, x):
    return mpmath.polyval(coefficients[::-1], x)


def remez(function, low, high, degree):
    """Coefficients, the constant first, of the least largest relative error."""
    count = degree + 2
    points = [(low + high) / 2 - (high - low) / 2 * mpmath.cos(mpmath.pi * i / (count - 1)) for i in range(count)]
    for _ in range(30):
        # function(x) (1 + sign e) = p(x)
        matrix = mpmath.matrix(count, count)
        right = mpmath.matrix(count, 1)
        for i, x in enumerate(points):
            f = function(x)
            for k in range(degree + 1):
                matrix[i, k] = x ** k
            matrix[i, degree + 1] = -(-1) ** i * f
            right[i] = f
        solved = mpmath.lu_solve(matrix, right)
        coefficients = [solved[k] for k in range(degree + 1)]

        def error(x):
            return value(coefficients, x) / function(x) - 1

        # The extremum between each two zeros of the error, found on a grid and by a parabola through its neighbours.
        steps = 60 * count
        grid = [low + (high - low) * (1 - mpmath.cos(mpmath.pi * i / steps)) / 2 for i in range(steps + 1)]
        errors = [error(x) for x in grid]
        found = []
        for i, e in enumerate(errors):
            if found and mpmath.sign(found[-1][1]) == mpmath.sign(e):
                if abs(e) > abs(found[-1][1]):
                    found[-1] = (grid[i], e)
            elif e != 0:
                found.append((grid[i], e))
        if len(found) != count:
            break
        points = [x for x, _ in found]
        sizes = [abs(e) for _, e in found]
        if max(sizes) / min(sizes) < mpf("1.001"):
            break
    return coefficients


def rounded(coefficient, kind):
    return mpf(struct.unpack("<" + kind, struct.pack("<" + kind, float(coefficient)))[0])


def main():
    for name, function, low, high, in_double, in_float in WANTED:
        for kind, degree, digits in (("d", in_double, 17), ("f", in_float, 9)):
            if degree is None:
                continue
            a, b = mpf(low), mpf(high)
            coefficients = [rounded(c, kind) for c in remez(function, a, b, degree)]
            worst = max(abs(value(coefficients, a + (b - a) * i / 4000) / function(a + (b - a) * i / 4000) - 1) for i in range(4001))
            print(f"{name}, {low} to {high}, {'double' if kind == 'd' else 'float'}, degree {degree}: {mpmath.nstr(worst, 3)}")
            print("    " + ", ".join(mpmath.nstr(c, digits, min_fixed=-5, max_fixed=5) for c in coefficients))


if __name__ == "__main__":
    main()
