# Sizes and powers of studies that compare two kits or two readers, from the definitions, with R base/stats.
# Run: Rscript second-opinion-planning-comparing.R > ../second-opinion-planning-comparing.json
# Every power adds up all results one by one (no walk along a border, no window); the restricted likelihood
# of a difference of two groups is maximised numerically (optimize), not by its cubic equation.

num <- function(x) ifelse(is.na(x), "null", trimws(formatC(x, digits = 17, format = "g")))
obj <- function(...) {
  parts <- list(...)
  paste0("{", paste0('"', names(parts), '": ', unlist(parts), collapse = ", "), "}")
}
word <- function(x) paste0('"', x, '"')
found <- function(power, wanted) {
  ok <- power >= wanted
  first <- if (any(ok)) which(ok)[1] else NA
  bad <- which(!ok)
  stays <- if (!any(ok) || max(bad, 0) == length(ok)) NA else max(bad, 0) + 1
  c(first, stays)
}

# --- paired difference: McNemar in three forms, all results (firstOnly, secondOnly) of the trinomial
p.mcnemar <- function(b, c, test) {
  n <- b + c
  if (n == 0) return(1)
  if (test == "mcnemar") return(pchisq((b - c)^2 / n, 1, lower.tail = FALSE))
  k <- min(b, c)
  if (test == "mcnemar_exact") return(binom.test(b, n)$p.value)
  if (b == c) 1 - dbinom(k, n, .5) / 2 else 2 * pbinom(k, n, .5) - dbinom(k, n, .5)
}
reject.table <- function(most, test, error) {
  outer(0:most, 0:most, Vectorize(function(b, c) b > c && b + c <= most && p.mcnemar(b, c, test) <= error))
}
power.mcnemar <- function(n, p10, p01, rejects) {
  bc <- expand.grid(b = 0:n, c = 0:n)
  bc <- bc[bc$b + bc$c <= n, ]
  bc <- bc[rejects[cbind(bc$b + 1, bc$c + 1)], ]
  if (nrow(bc) == 0) return(0)
  rest <- n - bc$b - bc$c
  log.mass <- lgamma(n + 1) - lgamma(bc$b + 1) - lgamma(bc$c + 1) - lgamma(rest + 1) +
    bc$b * log(p10) + ifelse(bc$c == 0, 0, bc$c * log(p01)) +
    ifelse(rest == 0, 0, rest * log(1 - p10 - p01))
  sum(exp(log.mass))
}
horizon <- 160
paired <- character()
for (case in list(c(.95, .80, .19), c(.9, .7, .34), c(.85, .70, .15), c(.97, .85, .14))) {
  for (test in c("mcnemar_mid_p", "mcnemar_exact", "mcnemar")) {
    rejects <- reject.table(horizon, test, .05)
    p10 <- (case[3] + case[1] - case[2]) / 2
    p01 <- max(0, (case[3] - case[1] + case[2]) / 2)
    if (p01 < 1e-12) p01 <- 0
    power <- sapply(1:horizon, power.mcnemar, p10 = p10, p01 = p01, rejects = rejects)
    at <- found(power, .8)
    z <- qnorm(.975); d <- case[1] - case[2]
    paired <- c(paired, obj(first = num(case[1]), second = num(case[2]), discordant = num(case[3]),
      test = word(test), horizon = horizon, formula = num((z * sqrt(case[3]) + qnorm(.8) * sqrt(case[3] - d^2))^2 / d^2),
      firstTotal = num(at[1]), stays = num(at[2]), power = num(power[at[2]]), powerBefore = num(power[at[2] - 1])))
  }
}

# --- paired non-inferiority: Tango's score at the margin, all results of the trinomial
tango <- function(b, c, n, d) {
  A <- 2 * n; B <- -b - c + (2 * n - b + c) * d; C <- -c * d * (1 - d)
  q <- (sqrt(pmax(0, B^2 - 4 * A * C)) - B) / (2 * A)
  apart <- b - c - n * d
  variance <- n * (2 * q + d * (1 - d))
  ifelse(apart == 0, 0, apart / sqrt(variance))
}
power.tango <- function(n, p10, p01, margin, z) {
  bc <- expand.grid(b = 0:n, c = 0:n)
  bc <- bc[bc$b + bc$c <= n, ]
  # The closed form is for either sign of the supposed difference (Tango 1998, recalled).
  bc <- bc[tango(bc$b, bc$c, n, -margin) >= z, ]
  rest <- n - bc$b - bc$c
  sum(exp(lgamma(n + 1) - lgamma(bc$b + 1) - lgamma(bc$c + 1) - lgamma(rest + 1) +
    bc$b * log(p10) + bc$c * log(p01) + rest * log(1 - p10 - p01)))
}
margins <- character()
for (case in list(c(.9, .9, .1, .1), c(.92, .9, .12, .08), c(.85, .88, .2, .15), c(.95, .95, .04, .1))) {
  p10 <- (case[3] + case[1] - case[2]) / 2
  p01 <- (case[3] - case[1] + case[2]) / 2
  power <- sapply(1:250, power.tango, p10 = p10, p01 = p01, margin = case[4], z = qnorm(.975))
  at <- found(power, .8); d <- case[1] - case[2]
  margins <- c(margins, obj(first = num(case[1]), second = num(case[2]), discordant = num(case[3]),
    margin = num(case[4]), horizon = 250,
    formula = num((qnorm(.975) + qnorm(.8))^2 * (case[3] - d^2) / (d + case[4])^2),
    firstTotal = num(at[1]), stays = num(at[2]), power = num(power[at[2]]), powerBefore = num(power[at[2] - 1])))
}

# --- two groups, difference: Fisher by dhyper, Pearson by its statistic; all results
p.fisher <- function(n1, n2) {
  p <- matrix(1, n1 + 1, n2 + 1)
  for (m in 0:(n1 + n2)) {
    x <- max(0, m - n2):min(m, n1)
    d <- dhyper(x, n1, n2, m)
    p[cbind(x + 1, m - x + 1)] <- sapply(d, function(one) sum(d[d <= one * (1 + 1e-7)]))
  }
  p
}
p.pearson <- function(n1, n2) outer(0:n1, 0:n2, function(x, y) {
  m <- x + y; N <- n1 + n2
  chi <- N * (x * (n2 - y) - y * (n1 - x))^2 / (n1 * n2 * m * (N - m))
  ifelse(m == 0 | m == N, 1, pchisq(chi, 1, lower.tail = FALSE))
})
power.groups <- function(n, p1, p2, ratio, p.of, error) {
  m <- ceiling(ratio * n - 1e-9)
  p <- p.of(n, m)
  higher <- outer((0:n) / n, (0:m) / m, if (p1 > p2) ">" else "<")
  sum(outer(dbinom(0:n, n, p1), dbinom(0:m, m, p2))[p <= error & higher])
}
groups <- character()
for (case in list(c(.75, .5, 1, .9), c(.95, .8, 1, .8), c(.7, .95, 2, .8), c(.9, .6, .5, .8))) {
  for (test in c("fisher", "pearson")) {
    p.of <- if (test == "fisher") p.fisher else p.pearson
    power <- sapply(1:130, power.groups, p1 = case[1], p2 = case[2], ratio = case[3], p.of = p.of, error = .05)
    at <- found(power, case[4])
    formula <- if (case[3] == 1) num(power.prop.test(p1 = case[1], p2 = case[2], power = case[4], tol = 1e-12)$n) else "null"
    groups <- c(groups, obj(first = num(case[1]), second = num(case[2]), ratio = num(case[3]),
      power = num(case[4]), test = word(test), horizon = 130, formula = formula,
      firstTotal = num(at[1]), stays = num(at[2]), powerThen = num(power[at[2]]), powerBefore = num(power[at[2] - 1])))
  }
}

# --- two groups, non-inferiority: all results of a few sizes
score.group <- function(x, n, y, m, d, shrink) {
  low <- max(0, -d); high <- min(1, 1 - d)
  loglik <- function(q) {
    p <- q + d
    part <- function(k, s) ifelse(k == 0, 0, k * log(s))
    part(x, p) + part(n - x, 1 - p) + part(y, q) + part(m - y, 1 - q)
  }
  q <- optimize(loglik, c(low, high), maximum = TRUE, tol = 1e-11)$maximum
  ends <- c(low, high)
  at.ends <- suppressWarnings(sapply(ends, loglik))
  at.ends[is.nan(at.ends)] <- -Inf
  if (max(at.ends) >= loglik(q)) q <- ends[which.max(at.ends)]
  p <- q + d
  apart <- x / n - y / m - d
  if (apart == 0) return(0)
  shrink * apart / sqrt(p * (1 - p) / n + q * (1 - q) / m)
}
wilson <- function(x, n, z) {
  centre <- (x + z^2 / 2) / (n + z^2)
  reach <- z * sqrt(x * (n - x) / n + z^2 / 4) / (n + z^2)
  cbind(centre - reach, centre + reach)
}
lower.of <- function(method, x, n, y, m, z) {
  wald <- function(x, n, y, m) x / n - y / m - z * sqrt(x * (n - x) / n^3 + y * (m - y) / m^3)
  if (method == "wald") return(wald(x, n, y, m))
  if (method == "agresti_caffo") return(wald(x + 1, n + 2, y + 1, m + 2))
  x / n - y / m - sqrt((x / n - wilson(x, n, z)[, 1])^2 + (wilson(y, m, z)[, 2] - y / m)^2)
}
power.margin <- function(n, m, p1, p2, margin, method, z) {
  cells <- expand.grid(x = 0:n, y = 0:m)
  mass <- dbinom(cells$x, n, p1) * dbinom(cells$y, m, p2)
  keep <- mass > 1e-16
  cells <- cells[keep, ]; mass <- mass[keep]
  if (method %in% c("mee", "miettinen_nurminen")) {
    shrink <- if (method == "mee") 1 else sqrt((n + m - 1) / (n + m))
    score <- mapply(function(x, y) score.group(x, n, y, m, -margin, shrink), cells$x, cells$y)
    return(sum(mass[score >= z]))
  }
  sum(mass[lower.of(method, cells$x, n, cells$y, m, z) >= -margin])
}
group.margins <- character()
for (case in list(c(.92, .92, .1, 1, 116), c(.9, .93, .12, 2, 90), c(.95, .9, .05, .5, 110))) {
  n <- case[5]; m <- ceiling(case[4] * n)
  for (method in c("miettinen_nurminen", "mee", "newcombe", "wald", "agresti_caffo")) {
    group.margins <- c(group.margins, obj(first = num(case[1]), second = num(case[2]), margin = num(case[3]),
      ratio = num(case[4]), method = word(method), total = n, others = m,
      power = num(power.margin(n, m, case[1], case[2], case[3], method, qnorm(.975)))))
  }
}

# --- kappa: delta method by numeric derivatives of kappa in the cell shares; simulation of the half-width
kappa.of <- function(p) {
  f <- p[1] + p[2]; s <- p[1] + p[3]; e <- f * s + (1 - f) * (1 - s)
  (p[1] + p[4] - e) / (1 - e)
}
se.of <- function(p) {
  g <- sapply(1:4, function(i) { h <- 1e-5; up <- down <- p; up[i] <- up[i] + h; down[i] <- down[i] - h
    # kappa as a function of unscaled cells, so that each can be varied alone
    (kappa.of(up / sum(up)) - kappa.of(down / sum(down))) / (2 * h) })
  sqrt(sum(p * g^2) - sum(p * g)^2)
}
set.seed(1)
kappas <- character()
for (case in list(c(.8, .3, .3, .1), c(.6, .5, .45, .12), c(.7, .1, .12, .15), c(.9, .05, .05, .1))) {
  k <- case[1]; f <- case[2]; s <- case[3]
  e <- f * s + (1 - f) * (1 - s); o <- k * (1 - e) + e
  both <- (o - 1 + f + s) / 2
  p <- c(both, f - both, s - both, 1 - f - s + both)
  raw <- (qnorm(.975) * se.of(p) / case[4])^2
  n <- ceiling(raw)
  tables <- rmultinom(20000, n, p) / n
  se <- apply(tables, 2, function(q) if (kappa.of(q) %in% c(1, NaN)) NA else se.of(q)) / sqrt(n)
  se[!is.na(se) & se < 1e-9] <- NA
  ks <- apply(tables, 2, kappa.of)
  covers <- !is.na(se) & abs(ks - k) <= qnorm(.975) * se
  kappas <- c(kappas, obj(kappa = num(k), reactiveFirst = num(f), reactiveSecond = num(s), halfWidth = num(case[4]),
    unrounded = num(raw), total = n, draws = 20000, meanHalfWidth = num(mean(qnorm(.975) * se, na.rm = TRUE)),
    coverage = num(mean(covers)), asPrecise = num(mean(!is.na(se) & qnorm(.975) * se <= case[4])),
    withoutInterval = num(mean(is.na(se)))))
}

list.of <- function(name, rows) paste0(' "', name, '": [\n  ', paste(rows, collapse = ",\n  "), "\n ]")
cat("{\n", ' "madeBy": "R ', as.character(getRversion()), ' base/stats; tests/reference/scripts/second-opinion-planning-comparing.R",\n',
  paste(c(list.of("paired", paired), list.of("pairedMargins", margins), list.of("groups", groups),
    list.of("groupMargins", group.margins), list.of("kappa", kappas)), collapse = ",\n"), "\n}\n", sep = "")
