# Second opinions for tests/methods/second-opinion.test.ts, by R base and stats only.
# Run: Rscript second-opinion.R > ../second-opinion.json
# Made with R 4.2.2. Equations are solved by uniroot with tol = 1e-15; Blaker's limits by a walk in small
# steps from the Clopper-Pearson limit followed by bisection, written from the definition (recalled).

number <- function(x) ifelse(is.finite(x), sprintf("%.17g", x), ifelse(x > 0, '"Infinity"', '"-Infinity"'))
pair <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")
root <- function(f, lower, upper) uniroot(f, c(lower, upper), tol = 1e-15, maxiter = 5000)$root

# ---- intervals of a proportion
clopper <- function(k, n, level) {
  a <- (1 - level) / 2
  c(if (k == 0) 0 else qbeta(a, k, n - k + 1), if (k == n) 1 else qbeta(a, k + 1, n - k, lower.tail = FALSE))
}
midp <- function(k, n, level) {
  a <- (1 - level) / 2
  up <- function(p) pbinom(k, n, p, lower.tail = FALSE) + dbinom(k, n, p) / 2 - a
  down <- function(p) pbinom(k - 1, n, p) + dbinom(k, n, p) / 2 - a
  outer <- clopper(k, n, level)
  c(if (k == 0) 0 else root(up, outer[1] / 2, k / n), if (k == n) 1 else root(down, k / n, (1 + outer[2]) / 2))
}
likelihood <- function(k, n, level) {
  cut <- qchisq(level, 1) / 2
  term <- function(x, p) if (x == 0) 0 else x * log(p)
  fit <- term(k, k / n) + term(n - k, 1 - k / n)
  drop <- function(l) fit - (term(k, plogis(l)) + term(n - k, plogis(-l))) - cut
  lo <- if (k == 0) 0 else if (k == n) exp(-cut / n) else plogis(root(drop, qlogis(k / n) - 20, qlogis(k / n)))
  hi <- if (k == n) 1 else if (k == 0) -expm1(-cut / n) else plogis(root(drop, qlogis(k / n), qlogis(k / n) + 20))
  c(lo, hi)
}
acceptability <- function(p, k, n) {
  x <- 0:n
  d <- dbinom(x, n, p)
  low <- pbinom(k, n, p)
  high <- pbinom(k - 1, n, p, lower.tail = FALSE)
  if (low <= high) {
    tails <- pbinom(x - 1, n, p, lower.tail = FALSE)
    min(1, low + max(0, tails[tails <= low * (1 + 1e-13)]))
  } else {
    tails <- pbinom(x, n, p)
    min(1, high + max(0, tails[tails <= high * (1 + 1e-13)]))
  }
}
blaker_lower <- function(k, n, level) {
  if (k == 0) return(0)
  start <- clopper(k, n, level)[1]
  steps <- seq(start, k / n, length.out = 4001)
  first <- steps[which(vapply(steps, acceptability, 0, k = k, n = n) > 1 - level + 1e-12)[1]]
  before <- max(start, first - (steps[2] - steps[1]))
  for (i in 1:80) {
    middle <- (before + first) / 2
    if (acceptability(middle, k, n) > 1 - level) first <- middle else before <- middle
  }
  first
}
blaker <- function(k, n, level) c(blaker_lower(k, n, level), 1 - blaker_lower(n - k, n, level))
wilson <- function(k, n, level) suppressWarnings(as.numeric(prop.test(k, n, conf.level = level, correct = FALSE)$conf.int))
wilson_corrected <- function(k, n, level) suppressWarnings(as.numeric(prop.test(k, n, conf.level = level)$conf.int))

cases <- expand.grid(n = c(1, 2, 7, 30, 144, 1000), part = c(0, .04, .37, .5, .81, 1), level = c(.9, .95, .99))
cases$k <- round(cases$n * cases$part)
cases <- unique(cases[c("k", "n", "level")])
intervals <- apply(cases, 1, function(r) {
  item(count = r["k"], total = r["n"], level = r["level"],
    clopper_pearson = pair(clopper(r["k"], r["n"], r["level"])),
    mid_p = pair(midp(r["k"], r["n"], r["level"])),
    blaker = pair(blaker(r["k"], r["n"], r["level"])),
    likelihood_ratio = pair(likelihood(r["k"], r["n"], r["level"])))
})
# prop.test shrinks its correction when the estimate is within half a unit of 1/2: those are left out.
score_cases <- cases[abs(cases$k - cases$n / 2) > .5, ]
scores <- apply(score_cases, 1, function(r) {
  item(count = r["k"], total = r["n"], level = r["level"],
    wilson = pair(wilson(r["k"], r["n"], r["level"])),
    wilson_corrected = pair(wilson_corrected(r["k"], r["n"], r["level"])))
})
large_cases <- data.frame(k = c(1, 17, 50000, 999983, 3e5), n = c(1e5, 1e6, 1e5, 1e6, 1e6))
large <- apply(large_cases, 1, function(r) {
  item(count = number(r["k"]), total = number(r["n"]), level = .95,
    clopper_pearson = pair(clopper(r["k"], r["n"], .95)),
    mid_p = pair(midp(r["k"], r["n"], .95)),
    likelihood_ratio = pair(likelihood(r["k"], r["n"], .95)))
})

# ---- exact binomial test
tests <- expand.grid(n = c(1, 10, 57, 400), part = c(0, .1, .45, .9, 1), p = c(.02, .3, .5, .95))
tests$k <- round(tests$n * tests$part)
binomial <- apply(tests, 1, function(r) {
  p <- function(side) number(binom.test(r["k"], r["n"], r["p"], alternative = side)$p.value)
  item(count = r["k"], total = r["n"], hypothesis = r["p"],
    twoSided = p("two.sided"), greater = p("greater"), less = p("less"))
})

# ---- ratio and difference of two proportions
koopman <- function(x1, n1, x0, n0, level) {
  cut <- qchisq(level, 1)
  chi <- function(log_ratio) {
    t <- exp(log_ratio)
    b <- x1 + t * x0 + t * n1 + n0
    p0 <- 2 * (x1 + x0) / (b + sqrt(b^2 - 4 * t * (n1 + n0) * (x1 + x0)))
    part <- function(x, n, p) if (abs(x - n * p) < 1e-12) 0 else (x - n * p)^2 / (n * p * (1 - p))
    part(x1, n1, t * p0) + part(x0, n0, p0) - cut
  }
  near <- if (x0 == 0) log(x1 / n1 * n0) + 8 else if (x1 == 0) log(n0 / (x0 * n1)) - 8 else log(x1 * n0 / (n1 * x0))
  c(if (x1 == 0) 0 else exp(root(chi, near - 16, near)), if (x0 == 0) Inf else exp(root(chi, near, near + 16)))
}
pairs <- list(c(36, 40, 16, 80), c(45, 50, 0, 100), c(0, 60, 138, 140), c(58, 60, 2, 140), c(3, 20, 9, 10), c(1, 400, 5, 300))
ratios <- sapply(pairs, function(r) {
  item(table = pair(r), score = pair(koopman(r[1], r[2], r[3], r[4], .95)))
})
newcombe <- function(x1, n1, x0, n0, level) {
  a <- wilson(x1, n1, level); b <- wilson(x0, n0, level); p <- x1 / n1; q <- x0 / n0
  c(p - q - sqrt((p - a[1])^2 + (b[2] - q)^2), p - q + sqrt((a[2] - p)^2 + (q - b[1])^2))
}
differences <- sapply(pairs, function(r) {
  item(table = pair(r), newcombe = pair(newcombe(r[1], r[2], r[3], r[4], .95)))
})

# ---- Fisher's exact test and the conditional odds ratio
conditional <- function(x1, n1, x0, n0, level) {
  k <- x1 + x0; s <- max(0, k - n0):min(k, n1); ld <- dhyper(s, n1, n0, k, log = TRUE)
  d <- function(t) { w <- ld + t * s; w <- exp(w - max(w)); w / sum(w) }
  a <- (1 - level) / 2
  c(if (x1 == min(s)) 0 else if (x1 == max(s)) Inf else exp(root(function(t) sum(s * d(t)) - x1, -40, 40)),
    if (x1 == min(s)) 0 else exp(root(function(t) sum(d(t)[s >= x1]) - a, -40, 40)),
    if (x1 == max(s)) Inf else exp(root(function(t) sum(d(t)[s <= x1]) - a, -40, 40)))
}
fisher <- sapply(pairs, function(r) {
  m <- rbind(c(r[1], r[2] - r[1]), c(r[3], r[4] - r[3]))
  p <- function(side) number(fisher.test(m, alternative = side)$p.value)
  item(table = pair(r), twoSided = p("two.sided"), greater = p("greater"), less = p("less"),
    oddsRatio = pair(conditional(r[1], r[2], r[3], r[4], .95)))
})

# ---- strata
strata <- list(
  list(x = c(83, 90, 129, 70), n = c(86, 93, 136, 82)),
  list(x = c(1, 0, 4), n = c(10, 12, 9)),
  list(x = c(0, 3, 2, 7, 1), n = c(20, 41, 18, 33, 25)),
  list(x = c(12, 15, 9, 14, 20, 6), n = c(30, 31, 28, 30, 33, 29)),
  list(x = c(48, 51), n = c(50, 60)))
homogeneity <- sapply(strata, function(s) {
  test <- suppressWarnings(prop.test(s$x, s$n, correct = FALSE))
  trend <- prop.trend.test(s$x, s$n)
  item(counts = pair(s$x), totals = pair(s$n), chiSquare = number(test$statistic), pValue = number(test$p.value),
    exactPValue = number(fisher.test(rbind(s$x, s$n - s$x), workspace = 2e7)$p.value),
    trendChiSquare = number(trend$statistic), trendPValue = number(trend$p.value))
})

# ---- predictive values at a prevalence
logit <- function(tp, n1, tn, n0, prevalence) {
  se <- tp / n1; sp <- tn / n0; z <- qnorm(.975)
  l <- qlogis(prevalence * se / (prevalence * se + (1 - prevalence) * (1 - sp)))
  m <- qlogis((1 - prevalence) * sp / ((1 - prevalence) * sp + prevalence * (1 - se)))
  c(plogis(l + c(-1, 1) * z * sqrt((1 - se) / (se * n1) + sp / ((1 - sp) * n0))),
    plogis(m + c(-1, 1) * z * sqrt(se / ((1 - se) * n1) + (1 - sp) / (sp * n0))))
}
studies <- list(c(240, 418, 288, 375, .03), c(110, 113, 1190, 1200, .045), c(19, 20, 3, 40, .5), c(1, 9, 8, 9, .9))
predictive <- sapply(studies, function(r) {
  limits <- logit(r[1], r[2], r[3], r[4], r[5])
  item(study = pair(r), ppv = pair(limits[1:2]), npv = pair(limits[3:4]))
})

cat("{\n", paste(c(
  '  "madeBy": "R 4.2.2 base/stats, tests/reference/scripts/second-opinion.R"',
  block("intervals", intervals), block("scores", scores), block("large", large), block("binomial", binomial),
  block("ratios", ratios), block("differences", differences), block("fisher", fisher),
  block("strata", homogeneity), block("predictive", predictive)), collapse = ",\n"), "\n}\n", sep = "")
