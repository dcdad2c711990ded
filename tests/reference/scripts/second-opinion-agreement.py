"""Second opinions for tests/methods/agreement/, by statsmodels 0.13.5 and SciPy 1.10.1.

Run: python3 second-opinion-agreement.py > ../second-opinion-agreement-statsmodels.json
Kappa with its standard errors and limits, plain and weighted; largest kappa from a linear programme
over all tables with the same margins; Fleiss' kappa of complete ratings.
"""
import json

import numpy as np
from scipy.optimize import linprog
from statsmodels.stats.inter_rater import cohens_kappa, fleiss_kappa

random = np.random.RandomState(20240612)


def largest(table, weights):
    """Largest weighted agreement with these margins, as a kappa."""
    k = len(table)
    total = table.sum()
    rows = np.kron(np.eye(k), np.ones(k))
    columns = np.kron(np.ones(k), np.eye(k))
    margins = np.concatenate([table.sum(axis=1), table.sum(axis=0)])
    best = linprog(-weights.ravel(), A_eq=np.vstack([rows, columns]), b_eq=margins, method="highs")
    chance = (weights * np.outer(table.sum(axis=1), table.sum(axis=0))).sum() / total**2
    return (-best.fun / total - chance) / (1 - chance)


def weights_of(kind, k):
    far = np.abs(np.subtract.outer(np.arange(k), np.arange(k)))
    if kind == "linear":
        return 1 - far / (k - 1)
    if kind == "quadratic":
        return 1 - far**2 / (k - 1) ** 2
    if kind == "given":
        given = np.round(random.uniform(0, 1, (k, k)), 3)
        given = (given + given.T) / 2
        np.fill_diagonal(given, 1)
        return given
    return np.eye(k)


def kappa(table, kind):
    weights = weights_of(kind, len(table))
    if kind == "none":
        found = cohens_kappa(table)
    elif kind == "given":
        # the largest weight, 1, turned into the distance 0
        found = cohens_kappa(table, weights=1 - weights)
    else:
        found = cohens_kappa(table, wt=kind)
    return {
        "table": table.tolist(),
        "weights": weights.tolist() if kind == "given" else kind,
        "kappa": [found.kappa, found.kappa_low, found.kappa_upp],
        "standardError": found.std_kappa,
        "nullStandardError": found.std_kappa0,
        "pValue": found.pvalue_two_sided,
        "largestKappa": largest(table, weights),
    }


def random_table(k, items, agree):
    first = random.choice(k, items, p=np.arange(k, 0, -1) / np.arange(k, 0, -1).sum())
    second = np.where(random.uniform(size=items) < agree, first, random.randint(0, k, items))
    table = np.zeros((k, k), dtype=int)
    np.add.at(table, (first, second), 1)
    return table


def fleiss(items, readers, k):
    truth = random.randint(0, k, items)
    guess = random.randint(0, k, (items, readers))
    ratings = np.where(random.uniform(size=(items, readers)) < 0.6, truth[:, None], guess)
    counts = np.stack([(ratings == c).sum(axis=1) for c in range(k)], axis=1)
    return {"ratings": ratings.tolist(), "kappa": fleiss_kappa(counts, method="fleiss")}


tables = [random_table(k, 30 * k, agree) for k in (2, 3, 4, 6) for agree in (0.1, 0.5, 0.85)]
kinds = ("none", "linear", "quadratic", "given")
print(
    json.dumps(
        {
            "madeBy": "statsmodels 0.13.5, SciPy 1.10.1, tests/reference/scripts/second-opinion-agreement.py",
            "kappa": [kappa(table, kind) for table in tables for kind in kinds],
            "fleiss": [fleiss(20, readers, k) for readers in (2, 3, 8) for k in (2, 3, 5)],
        }
    )
)
