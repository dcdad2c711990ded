# Makes oracle-normal-orthants-scipy.csv: SciPy 1.17.1, multivariate_normal.cdf (randomised quadrature, asked for
# an absolute error of 1e-8) for three to five variables whose correlations come from no common factors.
# Column r lists r12 r13 ... r23 ... row by row.
import numpy as np
from scipy.stats import multivariate_normal

rng = np.random.default_rng(20251126)
with open("oracle-normal-orthants-scipy.csv", "w") as out:
    out.write("# SciPy 1.17.1, multivariate_normal.cdf, abseps 1e-8; made by normal_orthants_scipy.py\n")
    out.write("n,h,r,value\n")
    for n in (3, 4, 5):
        for _ in range(15):
            loads = rng.normal(size=(n, n + 1))
            loads /= np.linalg.norm(loads, axis=1)[:, None]
            matrix = loads @ loads.T
            np.fill_diagonal(matrix, 1)
            h = rng.normal(loc=rng.choice([-1, 0, 1.5]), size=n)
            value = multivariate_normal(np.zeros(n), matrix, maxpts=3_000_000, abseps=1e-8, releps=0, seed=rng).cdf(h)
            pairs = [float(matrix[i, j]) for i in range(n) for j in range(i + 1, n)]
            if value > 1e-5:
                out.write(f"{n},{' '.join(repr(float(x)) for x in h)},{' '.join(map(repr, pairs))},{float(value)!r}\n")
