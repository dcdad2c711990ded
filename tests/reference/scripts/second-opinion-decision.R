# Second opinions for tests/methods/decision/second-opinion.test.ts, by R base and stats only.
# Run: Rscript second-opinion-decision.R > ../second-opinion-decision.json
# Made with R 4.2.2. Adjusted p-values: p.adjust. Assurance: the verdict on every possible result by its own
# interval (qbeta for the exact one, prop.test without correction for Wilson's), probabilities from dbinom and
# from exp(lchoose + lbeta - lbeta), added up over the results.

number <- function(x) sprintf("%.17g", as.numeric(x))
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")

set.seed(20260401)
families <- lapply(c(1, 2, 5, 12), function(m) {
  p <- round(rbeta(m, 0.4, 2), 5)
  if (m == 12) p[7] <- p[3]
  item(p = list_of(p), bonferroni = list_of(p.adjust(p, "bonferroni")), holm = list_of(p.adjust(p, "holm")),
    benjaminiHochberg = list_of(p.adjust(p, "BH")), fixedSequence = list_of(cummax(p)))
})

exact <- function(k, n) c(if (k == 0) 0 else qbeta(.025, k, n - k + 1), if (k == n) 1 else qbeta(.975, k + 1, n - k))
score <- function(k, n) suppressWarnings(prop.test(k, n, correct = FALSE)$conf.int)
verdict <- function(limits, c, at_least) {
  if (at_least) if (limits[1] >= c) 1 else if (limits[2] < c) 2 else 3
  else if (limits[2] <= c) 1 else if (limits[1] > c) 2 else 3
}
assured <- function(k, n, c, at_least, m, interval) {
  j <- 0:m
  v <- sapply(j, function(i) verdict(interval(k + i, n + m), c, at_least))
  held <- dbinom(j, m, k / n)
  predictive <- exp(lchoose(m, j) + lbeta(k + .5 + j, n - k + .5 + m - j) - lbeta(k + .5, n - k + .5))
  c(sapply(1:3, function(s) sum(held[v == s])), sapply(1:3, function(s) sum(predictive[v == s])))
}
asked <- list(list(198, 200, .98, TRUE, 300), list(5, 5, .95, TRUE, 80), list(96, 104, .95, TRUE, 500),
  list(12, 400, .05, FALSE, 100), list(30, 400, .05, FALSE, 250), list(0, 20, .1, FALSE, 40), list(60, 60, .9, TRUE, 0))
assurances <- unlist(lapply(asked, function(a) lapply(c("clopper_pearson", "wilson"), function(method) {
  interval <- if (method == "wilson") score else exact
  found <- assured(a[[1]], a[[2]], a[[3]], a[[4]], a[[5]], interval)
  item(count = a[[1]], total = a[[2]], threshold = number(a[[3]]), direction = if (a[[4]]) '"at_least"' else '"at_most"',
    further = a[[5]], method = paste0('"', method, '"'), estimateHeld = list_of(found[1:3]), predictive = list_of(found[4:6]))
})))

cat("{\n", paste(block("families", families), block("assurances", assurances), sep = ",\n"), "\n}\n", sep = "")
