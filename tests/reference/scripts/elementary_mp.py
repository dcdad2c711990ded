# Makes oracle-elementary-mp.csv: elementary functions in 60-digit arithmetic (mpmath 1.2.1), each value as the
# nearest double and what is left of it, so that errors below one unit in the last place can be seen.
import random

import mpmath as mp

mp.mp.dps = 60
random.seed(20261125)
u = random.uniform


def spread(low, high):
    """Evenly spread exponents."""
    return mp.e ** mp.mpf(u(low, high))


DRAWS = {
    "exp": (mp.exp, [lambda: (u(-30, 30),), lambda: (u(-745, 709),), lambda: (u(-1, 1),)]),
    "expm1": (mp.expm1, [lambda: (u(-2, 2),), lambda: (u(-40, 709),), lambda: (u(-1e-4, 1e-4),)]),
    "log": (mp.log, [lambda: (u(0, 10),), lambda: (float(spread(-740, 709)),), lambda: (1 + u(-1e-5, 1e-5),)]),
    "log1p": (mp.log1p, [lambda: (u(-0.999, 2),), lambda: (float(spread(-40, 700)),), lambda: (u(-1e-4, 1e-4),)]),
    "log2": (lambda x: mp.log(x, 2), [lambda: (u(2, 1e4),), lambda: (float(spread(1, 700)),)]),
    "log10": (mp.log10, [lambda: (u(2, 1e4),), lambda: (float(spread(1, 700)),)]),
    "pow": (
        mp.power,
        [
            lambda: (u(0, 3), u(-20, 20)),
            lambda: (u(-3, 3), random.randint(-30, 30)),
            lambda: (10, random.randint(-300, 300)),
            lambda: (float(spread(-100, 100)), u(-5, 5)),
            lambda: (1 + u(-1e-9, 1e-9), u(-1e11, 1e11)),
        ],
    ),
    "sin": (mp.sin, [lambda: (u(-10, 10),), lambda: (u(-1e6, 1e6),)]),
    "cos": (mp.cos, [lambda: (u(-10, 10),), lambda: (u(-1e6, 1e6),)]),
    "asin": (mp.asin, [lambda: (u(-1, 1),)]),
    "acos": (mp.acos, [lambda: (u(-1, 1),)]),
    "tanh": (mp.tanh, [lambda: (u(-20, 20),), lambda: (u(-1, 1),)]),
}
EACH = 60

with open("tests/reference/oracles/oracle-elementary-mp.csv", "w") as out:
    out.write("# mpmath 1.2.1, 60 digits: tests/reference/scripts/elementary_mp.py\nfunction,x,y,nearest,rest\n")
    for name, (function, draws) in DRAWS.items():
        for draw in draws:
            for _ in range(EACH):
                given = draw()
                value = function(*[mp.mpf(one) for one in given])
                nearest = float(value)
                y = repr(given[1]) if len(given) > 1 else ""
                out.write(f"{name},{given[0]!r},{y},{nearest!r},{float(value - mp.mpf(nearest))!r}\n")
