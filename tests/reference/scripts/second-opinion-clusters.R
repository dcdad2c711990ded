# Second opinions for tests/methods/clusters/*.test.ts.
# Run: Rscript second-opinion-clusters.R > ../second-opinion-clusters.json
# Made with R 4.2.2 and its package survey 4.1-1: svymean, svyciprop (methods "mean" and "beta"), svyby with
# its covariance and svycontrast, each cluster a primary sampling unit, all weights 1. The bootstrap is the
# list of all m^m resamples (expand.grid), base R.

suppressMessages(library(survey))
number <- function(x) sprintf("%.17g", as.numeric(x))
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")
people <- function(x, n) unlist(mapply(function(a, b) c(rep(1, a), rep(0, b - a)), x, n, SIMPLIFY = FALSE))

sets <- list(
  list(x = c(30, 41, 17, 25, 9), n = c(32, 45, 25, 26, 14)),
  list(x = c(12, 11, 10, 9, 10, 9, 9, 8, 8, 4, 7, 4, 5, 3, 3, 0), n = c(12, 11, 10, 9, 11, 10, 10, 9, 9, 5, 9, 7, 10, 6, 10, 7)),
  list(x = c(1, 0, 0, 7, 2, 3), n = c(40, 12, 33, 50, 8, 60)),
  list(x = c(99, 80, 118), n = c(100, 100, 120)),
  list(x = rep(c(2, 2, 2, 0, 1, 2), 9), n = rep(2, 54))
)
proportions <- lapply(sets, function(s) {
  d <- svydesign(ids = ~id, weights = ~1, data = data.frame(y = people(s$x, s$n), id = rep(seq_along(s$n), s$n)))
  m <- svymean(~y, d)
  item(counts = list_of(s$x), totals = list_of(s$n), value = number(coef(m)), standardError = number(SE(m)),
    ratioT = list_of(attr(svyciprop(~y, d, method = "mean"), "ci")),
    exactEffective = list_of(attr(svyciprop(~y, d, method = "beta"), "ci")))
})

pairs <- list(
  list(x1 = c(4, 6, 2, 5, 3, 8, 6), n1 = c(5, 7, 3, 6, 4, 9, 6), x2 = c(3, 6, 1, 3, 3, 5, 6), n2 = c(5, 7, 3, 6, 4, 9, 6)),
  list(x1 = c(30, 41, 17, 25, 9), n1 = c(32, 45, 25, 26, 14), x2 = c(27, 40, 11, 19, 10), n2 = c(30, 41, 20, 20, 11)),
  list(x1 = c(9, 0, 7, 12, 3, 20), n1 = c(10, 0, 9, 15, 4, 22), x2 = c(5, 6, 0, 8, 4, 30), n2 = c(6, 8, 0, 12, 4, 40))
)
together <- lapply(pairs, function(s) {
  m <- seq_along(s$n1)
  d <- data.frame(y = c(people(s$x1, s$n1), people(s$x2, s$n2)), id = c(rep(m, s$n1), rep(m, s$n2)),
    side = c(rep("a", sum(s$n1)), rep("b", sum(s$n2))))
  by <- svyby(~y, ~side, svydesign(ids = ~id, weights = ~1, data = d), svymean, covmat = TRUE)
  apart <- svycontrast(by, c(a = 1, b = -1))
  item(counts = list_of(s$x1), totals = list_of(s$n1), otherCounts = list_of(s$x2), otherTotals = list_of(s$n2),
    difference = number(coef(apart)), standardError = number(SE(apart)), correlation = number(cov2cor(vcov(by))[1, 2]))
})

listed <- lapply(sets[c(1, 4)], function(s) {
  m <- length(s$n)
  all <- as.matrix(expand.grid(rep(list(seq_len(m)), m)))
  v <- sort(apply(all, 1, function(i) sum(s$x[i]) / sum(s$n[i])))
  value <- sum(s$x) / sum(s$n)
  share <- (sum(v < value - 1e-12) + sum(abs(v - value) <= 1e-12) / 2) / length(v)
  out <- sapply(seq_len(m), function(i) sum(s$x[-i]) / sum(s$n[-i]))
  l <- mean(out) - out
  a <- sum(l^3) / (6 * sum(l^2)^1.5)
  z0 <- qnorm(share)
  z <- z0 + qnorm(c(.025, .975))
  at <- function(p) v[ceiling(p * length(v) - 1e-9)]
  item(counts = list_of(s$x), totals = list_of(s$n), standardError = number(sqrt(mean((v - mean(v))^2))),
    bias = number(mean(v) - value), biasCorrection = number(z0), acceleration = number(a),
    percentile = list_of(at(c(.025, .975))), bca = list_of(at(pnorm(z0 + z / (1 - a * z)))))
})

cat("{\n", paste(block("proportions", proportions), block("together", together), block("listed", listed), sep = ",\n"), "\n}\n", sep = "")
