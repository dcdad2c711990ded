"""Second opinion on algorithms.uncertain and algorithms.tornado: NumPy draws of the same quantities, and the
textbook formulas of serial testing with covariance written out anew. Prints JSON.
Run: python3 second-opinion-algorithms-uncertain.py > ../second-opinion-algorithms-uncertain.json
"""
import json
import numpy as np
import scipy
from scipy import stats

DRAWS = 4_000_000
rng = np.random.default_rng(20)


def jeffreys(right, total):
    return rng.beta(right + .5, total - right + .5, DRAWS)


def both(p, q, phi):
    covariance = phi * np.sqrt(p * (1 - p) * q * (1 - q))
    least = -np.minimum(p * q, (1 - p) * (1 - q))
    most = np.minimum(p * (1 - q), q * (1 - p))
    return p * q + np.clip(covariance, least, most)


def summary(x):
    low, mid, high = np.quantile(x, [.025, .5, .975])
    return {"mean": float(x.mean()), "median": float(mid), "lower": float(low), "upper": float(high)}


def case(name, kits, phi, prevalence, target, invalid, again):
    """Kit 1; if reactive kit 2; both reactive positive, else negative; invalid to the last: inconclusive."""
    (s1, n1, c1, m1, price1), (s2, n2, c2, m2, price2) = kits
    se1, se2 = jeffreys(s1, n1), jeffreys(s2, n2)
    f1, f2 = 1 - jeffreys(c1, m1), 1 - jeffreys(c2, m2)
    v1, v2 = (rng.uniform(*invalid, DRAWS) if invalid[1] > 0 else np.zeros(DRAWS) for _ in kits)
    p = jeffreys(*prevalence)
    devices1, devices2 = (sum(v ** r for r in range(again + 1)) for v in (v1, v2))
    ok1, ok2 = 1 - v1 ** (again + 1), 1 - v2 ** (again + 1)
    out = {}
    totals = {}
    for truth, a, b, f in [("d", se1, se2, phi[0]), ("n", f1, f2, phi[1])]:
        positive = both(a, b, f) * ok1 * ok2
        negative = ok1 * (1 - a) + ok1 * ok2 * (a - both(a, b, f))
        totals[truth] = (positive, negative, 1 - positive - negative, devices1 * price1 + ok1 * a * devices2 * price2)
    d, n = totals["d"], totals["n"]
    ppv = p * d[0] / (p * d[0] + (1 - p) * n[0])
    npv = (1 - p) * n[1] / ((1 - p) * n[1] + p * d[1])
    for key, x in [("ppv", ppv), ("npv", npv), ("missed", p * d[1] * 1e5), ("falsePositives", (1 - p) * n[0] * 1e5),
                   ("inconclusive", (p * d[2] + (1 - p) * n[2]) * 1e5), ("cost", p * d[3] + (1 - p) * n[3])]:
        out[key] = summary(x)
    return {"name": name, "kits": kits, "phi": phi, "prevalence": prevalence, "target": target,
            "invalid": invalid, "again": again, "reached": float((ppv >= target).mean()), **out}


CASES = [
    ("independent, counts of hundreds", [[196, 200, 497, 500, 2], [197, 200, 498, 500, 1.4]], [0, 0], [45, 1000], .999, [0, 0], 0),
    ("errors go together among the nondiseased", [[196, 200, 490, 500, 2], [197, 200, 492, 500, 1.4]], [0, .08], [30, 1000], .95, [0, 0], 0),
    ("both correlations, invalid runs repeated", [[190, 200, 970, 1000, 3], [285, 300, 980, 1000, 1]], [.1, .1], [200, 1000], .98, [.01, .05], 1),
]
print(json.dumps({"madeBy": f"NumPy {np.__version__}, SciPy {scipy.__version__}, {DRAWS} draws, seed 20",
                  "uncertain": [case(*c) for c in CASES]}, indent=1))
