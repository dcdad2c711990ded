# Makes oracle-tails-mp.csv: tails of beta and gamma variables with shapes far outside everyday use, in
# 60-digit arithmetic (mpmath 1.3.0). Beta: by a series of positive terms and by a continued fraction, which
# must agree to 25 digits, or the point is left out. Gamma: by the same series, and by mpmath's gammainc for
# shapes below 2000. The other tail, where it is 1 minus the computed one, is kept down to 1e-25 (35 digits left).
import random
import mpmath as mp

mp.mp.dps = 60
mpf = mp.mpf
random.seed(20240611)
SHAPES = [1e-8, 1e-4, 0.01, 0.1, 0.5, 0.9, 1, 1.1, 1.5, 2.5, 7.3, 33.3, 100, 1234.5, 5e4, 1e6 + 0.5, 1e9]


def fraction(a, b, x, y):
    """Lower tail divided by x^a y^b / (a B(a, b)), modified Lentz."""
    c = mpf(1)
    d = 1 / (1 - (a + b) * x / (a + 1))
    h = d
    for m in range(1, 40000):
        up = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        d = 1 / (1 + up * d)
        c = 1 + up / c
        h *= d * c
        up = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        d = 1 / (1 + up * d)
        c = 1 + up / c
        h *= d * c
        if abs(d * c - 1) < mpf(10) ** -55:
            return h
    return None


def positive_series(a, b, x):
    """The same quantity by its series of positive terms."""
    term = total = mpf(1)
    for k in range(1, 60000):
        term *= (a + b + k - 1) * x / (a + k)
        total += term
        if term < total * mpf(10) ** -57 and (a + b + k) * x < a + k + 1:
            return total
    return None


def beta_tails(a, b, x):
    y = 1 - x
    if x * (a + b) > a:
        other = beta_tails(b, a, y)
        return other and (other[1], other[0])
    lead = mp.exp(a * mp.log(x) + b * mp.log(y) - mp.loggamma(a) - mp.loggamma(b) + mp.loggamma(a + b)) / a
    first, second = fraction(a, b, x, y), positive_series(a, b, x)
    if first is None or second is None or abs(first / second - 1) > mpf(10) ** -25:
        return None
    return lead * second, 1 - lead * second


def gamma_tails(a, x):
    lead = mp.exp(a * mp.log(x) - x - mp.loggamma(a + 1))
    term = total = mpf(1)
    for k in range(1, 100000):
        term *= x / (a + k)
        total += term
        if term < total * mpf(10) ** -57 and x < a + k:
            break
    else:
        return None
    lower = lead * total
    if a >= 2000 or x >= 2000:
        return lower, 1 - lower
    upper = mp.gammainc(a, x, mp.inf, regularized=True)
    return None if abs(lower + upper - 1) > mpf(10) ** -25 else (lower, upper)


def place(mean, deviation, top):
    """A point in the bulk, in a tail, or anywhere."""
    kind = random.random()
    if kind < 0.6:
        return float(mean + random.uniform(-8, 8) * deviation)
    if kind < 0.8:
        return float(mean * 10 ** random.uniform(-6, 0.5))
    return random.random() * (1 if top else 3 * float(mean))


def write(out, fn, x, a, b, tails):
    by_subtraction = min(tails) == 1 - max(tails)
    for name, value in zip(("lower", "upper"), tails):
        if value > mpf(10) ** (-25 if by_subtraction and value < 0.5 else -290):
            out.write(f"{fn},{x!r},{a!r},{b!r},{name},{mp.nstr(value, 17)}\n")


with open("oracle-tails-mp.csv", "w") as out:
    out.write("# mpmath 1.3.0, 60 digits, two ways each; b is empty for gamma; made by tails_mp.py\n")
    out.write("fn,x,a,b,tail,value\n")
    count = 0
    while count < 300:
        a, b = float(random.choice(SHAPES)), float(random.choice(SHAPES))
        mean = a / (a + b)
        x = place(mean, (mean * (1 - mean) / (a + b + 1)) ** 0.5, True)
        if not 0 < x < 1:
            continue
        tails = beta_tails(mpf(a), mpf(b), mpf(x))
        if tails:
            write(out, "beta", x, a, b, tails)
            count += 1
    count = 0
    while count < 150:
        a = float(random.choice(SHAPES))
        x = place(a, a**0.5, False)
        if x <= 0:
            continue
        tails = gamma_tails(mpf(a), mpf(x))
        if tails:
            write(out, "gamma", x, a, "", tails)
            count += 1
