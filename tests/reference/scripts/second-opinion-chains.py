"""Agreement of chains after Vehtari and others 2021, written out in numpy and scipy from the formulas (memory).

/usr/bin/python3 tests/reference/scripts/second-opinion-chains.py > tests/reference/second-opinion-chains.json
"""
import json
import numpy as np
from scipy.stats import norm, rankdata

def split(x):
    half = x.shape[1] // 2
    return np.vstack([x[:, :half], x[:, x.shape[1] - half:]])

def scores(x):
    ranks = rankdata(x, method="average").reshape(x.shape)
    return norm.ppf((ranks - 0.375) / (x.size + 0.25))

def rhat(x):
    n = x.shape[1]
    between = n * x.mean(axis=1).var(ddof=1)
    within = x.var(axis=1, ddof=1).mean()
    return np.sqrt(((n - 1) / n * within + between / n) / within)

def ess(x):
    m, n = x.shape
    centred = x - x.mean(axis=1, keepdims=True)
    # autocovariance by the spectrum, padded
    size = 2 ** int(np.ceil(np.log2(2 * n)))
    spectrum = np.fft.rfft(centred, size)
    cov = np.fft.irfft(spectrum * np.conj(spectrum), size)[:, :n] / n
    within = (cov[:, 0] * n / (n - 1)).mean()
    plus = within * (n - 1) / n + x.mean(axis=1).var(ddof=1)
    rho = 1 - (within - cov.mean(axis=0)) / plus
    rho[0] = 1
    pairs = rho[0:n - n % 2:2] + rho[1:n:2]
    end = np.argmax(pairs <= 0) if (pairs <= 0).any() else len(pairs)
    pairs = np.minimum.accumulate(pairs[:end])
    tau = max(2 * pairs.sum() - 1, 1 / np.log10(m * n))
    return m * n / tau

def diagnose(x):
    s = split(x)
    # ranks over the split draws; equal to those over all draws, chains being of even length
    bulk = scores(s)
    folded = scores(np.abs(s - np.median(s)))
    tails = [ess((s <= np.quantile(s, q)).astype(float)) for q in (0.05, 0.95)]
    return {"rHat": max(rhat(bulk), rhat(folded)), "bulkEffective": ess(bulk), "tailEffective": min(tails), "meanEffective": ess(s)}

rng = np.random.default_rng(20210)

def ar1(chains, length, phi):
    x = np.empty((chains, length))
    x[:, 0] = rng.normal(size=chains)
    for t in range(1, length):
        x[:, t] = phi * x[:, t - 1] + np.sqrt(1 - phi ** 2) * rng.normal(size=chains)
    return x

independent = ar1(4, 60, 0.0)
sticky = ar1(3, 80, 0.8)
opposed = ar1(4, 60, -0.5)
apart = ar1(4, 60, 0.3) + np.array([[0.0], [0.0], [0.0], [1.5]])
wide = ar1(4, 60, 0.3) * np.array([[1.0], [1.0], [1.0], [4.0]])
repeated = np.repeat(ar1(2, 40, 0.2), 2, axis=1)
heavy = np.tan(np.pi * (norm.cdf(ar1(4, 60, 0.4)) - 0.5))
cases = dict(independent=independent, sticky=sticky, opposed=opposed, apart=apart, wide=wide, repeated=repeated, heavy=heavy)
out = []
for name, x in cases.items():
    x = np.round(x, 5)
    out.append({"name": name, "chains": x.tolist(), "expected": diagnose(x)})
print("[\n" + ",\n".join(json.dumps(case) for case in out) + "\n]")
