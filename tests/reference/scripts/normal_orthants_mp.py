# Makes oracle-bivariate-normal-mp.csv and oracle-normal-orthants.csv: P(X1 <= h1, ..., Xn <= hn) of standard
# normal variables with given correlations.
# Two variables: the conditional probability integrated over the first, 40 digits (mpmath 1.3.0).
# Three to five: correlations made from one or two common factors, r_ij = a_i a_j + b_i b_j; the product of the
# conditional probabilities integrated over the factors by the trapezoidal rule on -9..9 (whose error for such
# functions is below 1e-16), doubles with ndtr of SciPy 1.17.1. Column r lists r12 r13 ... r23 ... row by row.
import random
import mpmath as mp
import numpy as np
from scipy.special import ndtr

mp.mp.dps = 40
random.seed(20251125)


def phi(z):
    return mp.erfc(-z / mp.sqrt(2)) / 2


def bivariate(x, y, r):
    x, y, r = mp.mpf(x), mp.mpf(y), mp.mpf(r)
    rest = mp.sqrt((1 - r) * (1 + r))
    low = mp.mpf(-16)
    corner = y / r if r else x
    places = {low, x} | {x - k for k in (1, 2, 4, 8)}
    for width in (0, 1, 4, 16):
        places |= {corner - width * rest / max(abs(r), 0.1), corner + width * rest / max(abs(r), 0.1)}
    places = sorted(p for p in places if low <= p <= x)
    return mp.quad(lambda u: mp.npdf(u) * phi((y - r * u) / rest), places)


def write_bivariate():
    with open("oracle-bivariate-normal-mp.csv", "w") as out:
        out.write("# mpmath 1.3.0, 40 digits; P(X <= x, Y <= y); made by normal_orthants_mp.py\n")
        out.write("x,y,r,value\n")
        correlations = [-0.999999, -0.99, -0.93, -0.9, -0.7, -0.3, -0.05, 0.02, 0.2, 0.35, 0.6, 0.8, 0.92, 0.926, 0.97, 0.9999, 0.99999999]
        for r in correlations:
            for _ in range(14):
                x = random.choice([-6, -4, -3, -2.3, -1.5, 0, 0.5, 2, 3.5]) + random.random() * 0.2
                y = random.choice([x, x + random.gauss(0, 0.05), random.uniform(-5, 5), random.gauss(-2, 0.4)])
                value = bivariate(x, y, r)
                if value > mp.mpf(10) ** -30:
                    out.write(f"{x!r},{y!r},{r!r},{mp.nstr(value, 17)}\n")


def two_factors(h, a, b):
    u = np.linspace(-9, 9, 1441)
    w = np.exp(-u * u / 2) / np.sqrt(2 * np.pi) * (18 / 1440)
    rest = np.sqrt(1 - np.array(a) ** 2 - np.array(b) ** 2)
    two = any(b)
    v = u if two else np.zeros(1)
    wv = w if two else np.ones(1)
    product = np.ones((len(u), len(v)))
    for i in range(len(h)):
        product *= ndtr((h[i] - a[i] * u[:, None] - b[i] * v[None, :]) / rest[i])
    return float(w @ product @ wv)


def write_orthants():
    with open("oracle-normal-orthants.csv", "w") as out:
        out.write("# trapezoidal rule over the common factors, SciPy ndtr; made by normal_orthants_mp.py\n")
        out.write("n,h,r,value\n")
        for n in (3, 4, 5):
            for kind in ("one", "one", "two"):
                for size in (0.3, 0.6, 0.9, 0.985):
                    for _ in range(5):
                        h = [random.choice([random.gauss(0, 1), random.gauss(-2, 0.4), random.gauss(2, 0.4)]) for _ in range(n)]
                        a = [random.uniform(-1, 1) if random.random() < 0.3 else random.uniform(0.5, 1) for _ in range(n)]
                        b = [random.uniform(-1, 1) if kind == "two" else 0.0 for _ in range(n)]
                        a = [size * x for x in a]
                        b = [(1 - size * size) ** 0.5 * 0.95 * y for y in b]
                        value = two_factors(h, a, b)
                        r = [a[i] * a[j] + b[i] * b[j] for i in range(n) for j in range(i + 1, n)]
                        if value > 1e-12:
                            out.write(f"{n},{' '.join(map(repr, h))},{' '.join(map(repr, r))},{value!r}\n")


write_orthants()
write_bivariate()
