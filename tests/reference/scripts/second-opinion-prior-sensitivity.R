# Second opinions for tests/methods/reference/prior-sensitivity.test.ts, by R base and stats only.
# Run: Rscript second-opinion-prior-sensitivity.R > ../second-opinion-prior-sensitivity.json
# Made with R 4.2.2. Two tests in one population under other priors: counts and priors of Joseph, Gyorkos & Coupal
# 1995 (memory). Median, limits, standard deviation, density at median and limits. Exact mixture of betas over all latent counts, quantiles by uniroot on its distribution function.

number <- function(x) sprintf("%.10g", x)
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
n <- c(38, 87, 2, 35)
stated <- list(prev = c(1, 1), se1 = c(21.96, 5.49), sp1 = c(4.1, 1.76), se2 = c(4.44, 13.31), sp2 = c(71.25, 3.75))

y <- as.matrix(expand.grid(0:n[1], 0:n[2], 0:n[3], 0:n[4]))
d <- rowSums(y); i1 <- y[, 1] + y[, 2]; i2 <- y[, 1] + y[, 3]; N <- sum(n)
in_favour <- list(prev = d, se1 = i1, sp1 = n[3] + n[4] - (d - i1), se2 = i2, sp2 = n[2] + n[4] - (d - i2))
against <- list(prev = N - d, se1 = d - i1, sp1 = n[1] + n[2] - i1, se2 = d - i2, sp2 = n[1] + n[3] - i2)
choices <- rowSums(sapply(1:4, function(k) lchoose(n[k], y[, k])))

under <- function(name, priors) {
  w <- choices
  for (k in names(priors)) {
    p <- priors[[k]]; w <- w + lbeta(p[1] + in_favour[[k]], p[2] + against[[k]]) - lbeta(p[1], p[2])
  }
  w <- exp(w - max(w)); w <- w / sum(w)
  rows <- sapply(names(priors), function(k) {
    p <- priors[[k]]
    g <- aggregate(w, list(a = in_favour[[k]], b = against[[k]]), sum); g <- g[g$x > 1e-16, ]
    a <- p[1] + g$a; b <- p[2] + g$b
    m <- sum(g$x * a / (a + b)); s <- sqrt(sum(g$x * (a * (a + 1)) / ((a + b) * (a + b + 1))) - m^2)
    q <- sapply(c(0.5, 0.025, 0.975), function(u) uniroot(function(x) sum(g$x * pbeta(x, a, b)) - u, c(0, 1), tol = 1e-11)$root)
    c(q, s, sapply(q, function(x) sum(g$x * dbeta(x, a, b))))
  })
  sprintf('  { "name": "%s", "prevalence": %s, "tests": [[%s, %s], [%s, %s]] }', name, list_of(rows[, 1]),
    list_of(rows[, 2]), list_of(rows[, 3]), list_of(rows[, 4]), list_of(rows[, 5]))
}
weighed <- function(by) { p <- lapply(stated, function(s) s * by); p$prev <- c(1, 1); p }
flat <- function(which) { p <- stated; for (k in which) p[[k]] <- c(1, 1); p }
cat("[\n", paste(c(
  under("as_stated", stated), under("half_weight", weighed(0.5)), under("double_weight", weighed(2)),
  under("tests.0.sensitivity", flat("se1")), under("tests.0.specificity", flat("sp1")),
  under("tests.1.sensitivity", flat("se2")), under("tests.1.specificity", flat("sp2"))
), collapse = ",\n"), "\n]\n", sep = "")
