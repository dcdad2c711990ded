# Recomputes the probability rows of R's tables in 45-digit arithmetic (mpmath 1.3.0) and prints how far R is off:
# the worst row of each table, and every row off by more than 1e-12. Run in the folder of the tables.
import csv
import mpmath as mp

mp.mp.dps = 45
mpf = mp.mpf


def rows(name, header=True):
    lines = [row for row in csv.reader(line for line in open(name) if line[0] != "#")]
    return lines[1:] if header else lines


def fraction(a, b, x, y):
    """Lower tail of a beta variable for x below the mean, modified Lentz."""
    lead = mp.exp(a * mp.log(x) + b * mp.log(y) - mp.loggamma(a) - mp.loggamma(b) + mp.loggamma(a + b)) / a
    c, d, m = mpf(1), 1 / (1 - (a + b) * x / (a + 1)), 0
    h = d
    while True:
        m += 1
        up = m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
        d, c = 1 / (1 + up * d), 1 + up / c
        h *= d * c
        up = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
        d, c = 1 / (1 + up * d), 1 + up / c
        h *= d * c
        if abs(d * c - 1) < mpf(10) ** -40:
            return lead * h


def beta(a, b, x, y):
    if x * (a + b) <= a:
        lower = fraction(a, b, x, y)
        return lower, 1 - lower
    upper = fraction(b, a, y, x)
    return 1 - upper, upper


def gamma(a, x):
    if x <= a:
        term = total = mpf(1)
        k = 0
        while term > total * mpf(10) ** -45:
            k += 1
            term *= x / (a + k)
            total += term
        lower = mp.exp(a * mp.log(x) - x - mp.loggamma(a + 1)) * total
        return lower, 1 - lower
    b, c, k = x + 1 - a, mpf(10) ** 300, 0
    d = 1 / b
    h = d
    while True:
        k += 1
        up, b = -k * (k - a), b + 2
        d, c = 1 / (up * d + b), b + up / c
        h *= d * c
        if abs(d * c - 1) < mpf(10) ** -42:
            break
    upper = mp.exp(a * mp.log(x) - x - mp.loggamma(a)) * h
    return 1 - upper, upper


def student(t, df):
    if t == 0:
        return mpf(1) / 2, mpf(1) / 2
    away = beta(df / 2, mpf(1) / 2, df / (df + t * t), t * t / (df + t * t))[0] / 2
    return (1 - away, away) if t > 0 else (away, 1 - away)


def hypergeometric(a, b, c, d):
    m, n, k = a + b, c + d, a + c
    least, most = max(0, k - n), min(k, m)
    log = lambda count: mp.loggamma(count + 1)
    mass = mp.exp(log(m) + log(n) + log(k) + log(m + n - k) - log(m + n) - log(a) - log(b) - log(c) - log(d))
    term, total, x = mpf(1), mpf(0), a
    if a * (m + n) <= k * m:
        while x >= least and term > mpf(10) ** -45:
            total += term
            term *= mpf(x * (n - k + x)) / ((m - x + 1) * (k - x + 1))
            x -= 1
        return mass, mass * total, 1 - mass * total
    while x < most and term > mpf(10) ** -45:
        term *= mpf((m - x) * (k - x)) / ((x + 1) * (n - k + x + 1))
        x += 1
        total += term
    return mass, 1 - mass * total, mass * total


worst = {}


def compare(what, row, theirs, truth):
    theirs = mpf(float(theirs))
    if abs(truth) < mpf(10) ** -300:
        return
    error = abs(theirs / truth - 1)
    if error > worst.get(what, (0,))[0]:
        worst[what] = (error, row, mp.nstr(truth, 17))
    if error > mpf(10) ** -12:
        print(f"{what}: R is off by {mp.nstr(error, 3)}; {','.join(row)}; truth {mp.nstr(truth, 17)}")


for row in rows("oracle-binom.csv"):
    x, n, p = int(row[0]), int(row[1]), mpf(float(row[2]))
    log = mp.loggamma(n + 1) - mp.loggamma(x + 1) - mp.loggamma(n - x + 1) + x * mp.log(p) + (n - x) * mp.log(1 - p)
    compare("dbinom", row, row[3], mp.exp(log))
    compare("dbinom, log", row, row[4], log)
    upper, lower = (mpf(0), mpf(1)) if x == n else beta(mpf(x + 1), mpf(n - x), p, 1 - p)
    compare("pbinom, lower", row, row[5], lower)
    compare("pbinom, upper", row, row[6], upper)
for name, tails in (
    ("oracle-t.csv", lambda row: student(mpf(float(row[1])), mpf(row[2]))),
    ("oracle-chisq.csv", lambda row: gamma(mpf(float(row[2])) / 2, mpf(float(row[1])) / 2)),
):
    for row in rows(name):
        if row[0] == "cdf":
            compare(name, row, row[4], tails(row)[0 if row[3] == "TRUE" else 1])
for row in rows("oracle-f.csv"):
    if row[0] == "cdf":
        f, d1, d2 = mpf(float(row[1])), mpf(row[2]), mpf(row[3])
        tails = beta(d1 / 2, d2 / 2, d1 * f / (d1 * f + d2), d2 / (d1 * f + d2))
        compare("oracle-f.csv, pf", row, row[5], tails[0 if row[4] == "TRUE" else 1])
for row in rows("oracle-hyper.csv"):
    mass, lower, upper = hypergeometric(*(int(float(cell)) for cell in row[:4]))
    compare("dhyper", row, row[4], mass)
    compare("phyper, lower", row, row[5], lower)
    compare("phyper, upper", row, row[6], upper)
for row in rows("oracle-lgamma.csv", header=False):
    compare("lgamma", row, row[1], mp.loggamma(mpf(float(row[0]))))
for what, (error, row, truth) in worst.items():
    print(f"worst of {what}: {mp.nstr(error, 3)}; {','.join(row)}; truth {truth}")
