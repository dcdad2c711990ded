# Second opinions for tests/methods/verification/second-opinion.test.ts, by R base and stats only.
# Run (about a minute): Rscript second-opinion-verification.R > ../second-opinion-verification.json
# Made with R 4.2.2. Corrected measures: expected tables cell by cell, errors by numerical derivatives of the log
# odds (central differences, extrapolated) over the covariance matrix of a multinomial, nothing simplified.
# Weights: sums over single people. Imputation: rbeta, rbinom; Rubin's rules on 2,000 tables given as counts.
# Odds ratios of verification: the same expected tables; borders by uniroot.

number <- function(x) ifelse(is.na(x), "null", sprintf("%.17g", as.numeric(x)))
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")

# counts: 6 numbers per stratum: reactive diseased, nondiseased, unverified; nonreactive the same
measures <- function(counts, ratios = c(1, 1)) {
  m <- matrix(counts, nrow = 3)
  reactive <- rep(c(TRUE, FALSE), length.out = ncol(m))
  ratio <- ifelse(reactive, ratios[1], ratios[2])
  odds <- m[1, ] / m[2, ] / ratio
  share <- ifelse(m[1, ] + m[2, ] == 0, 0, ifelse(m[2, ] == 0, 1, odds / (1 + odds)))
  ill <- m[1, ] + m[3, ] * share
  well <- colSums(m) - ill
  c(sum(ill[reactive]) / sum(ill), sum(well[!reactive]) / sum(well), sum(ill) / sum(m),
    sum(ill[reactive]) / sum(m[, reactive]), sum(well[!reactive]) / sum(m[, !reactive]))
}
gradient <- function(counts, ratios) {
  one <- function(h) sapply(seq_along(counts), function(i) {
    step <- counts[i] * h
    if (step == 0) return(rep(0, 5))
    up <- down <- counts
    up[i] <- up[i] + step
    down[i] <- down[i] - step
    (qlogis(measures(up, ratios)) - qlogis(measures(down, ratios))) / (2 * step)
  })
  (4 * one(5e-4) - one(1e-3)) / 3
}
errors <- function(counts, ratios = c(1, 1)) {
  g <- gradient(counts, ratios)
  covariance <- diag(counts) - outer(counts, counts) / sum(counts)
  sqrt(diag(g %*% covariance %*% t(g)))
}
limit <- function(counts, ratios, which, side) {
  plogis(qlogis(measures(counts, ratios)[which]) + side * qnorm(.975) * errors(counts, ratios)[which])
}
tables <- list(c(231, 32, 166, 27, 54, 140), c(180, 20, 0, 5, 95, 700), c(40, 3, 12, 2, 60, 240),
  c(30, 5, 10, 3, 50, 100, 60, 2, 3, 4, 20, 80), c(12, 9, 31, 6, 44, 310, 80, 5, 0, 1, 9, 12, 25, 30, 7, 8, 90, 200))
odds_ratios <- list(c(1, 1), c(2, 2), c(.25, 3), c(10, .1))
corrected <- unlist(lapply(tables, function(t) lapply(odds_ratios, function(r)
  item(counts = list_of(t), ratios = list_of(r), values = list_of(measures(t, r)), errors = list_of(errors(t, r))))))

# one group: reactive (1 or 0), diseased, nondiseased, probability of the design
groups <- list(list(c(1, 180, 20, 1), c(0, 5, 95, .125)), list(c(1, 30, 5, .8), c(1, 60, 2, .95), c(0, 3, 50, .3), c(0, 4, 20, .2)),
  list(c(1, 12, 9, .4), c(0, 6, 44, .15), c(0, 1, 9, .5), c(1, 80, 5, 1)))
weighted <- sapply(groups, function(gs) {
  people <- do.call(rbind, lapply(gs, function(g) data.frame(t = g[1], d = rep(c(1, 0), g[2:3]), w = 1 / g[4])))
  ratio <- function(x, y) { r <- sum(x) / sum(y); c(r, sqrt(sum((x - r * y)^2)) / sum(y)) }
  with(people, item(groups = paste0("[", paste(sapply(gs, list_of), collapse = ", "), "]"),
    sensitivity = list_of(ratio(w * t * d, w * d)), specificity = list_of(ratio(w * (1 - t) * (1 - d), w * (1 - d))),
    prevalence = list_of(ratio(w * d, w)), ppv = list_of(ratio(w * t * d, w * t)),
    npv = list_of(ratio(w * (1 - t) * (1 - d), w * (1 - t))), people = number(sum(w)), effective = number(sum(w)^2 / sum(w^2))))
})

set.seed(20260)
complete <- function(t, n) {
  m <- matrix(t, nrow = 3)
  ill <- sapply(seq_len(ncol(m)), function(k) m[1, k] + rbinom(n, m[3, k], rbeta(n, m[1, k] + .5, m[2, k] + .5)))
  reactive <- rep(c(TRUE, FALSE), length.out = ncol(m))
  total <- matrix(colSums(m), n, ncol(m), byrow = TRUE)
  well <- total - ill
  s <- function(x, which) rowSums(x[, which, drop = FALSE])
  cbind(s(ill, reactive) / rowSums(ill), s(well, !reactive) / rowSums(well), rowSums(ill) / rowSums(total),
    s(ill, reactive) / s(total, reactive), s(well, !reactive) / s(total, !reactive))
}
imputed <- sapply(tables[c(1, 2, 3, 4)], function(t) {
  drawn <- complete(t, 400000)
  item(counts = list_of(t), means = list_of(colMeans(drawn)), between = list_of(apply(drawn, 2, var)))
})

rubin <- sapply(list(list(c(9, 10, 8, 9, 11), 12), list(c(45, 44, 47, 41), 50), list(c(3, 3, 3), 40), list(c(240, 251, 236, 244, 239, 247), 300)), function(case) {
  x <- case[[1]]; n <- case[[2]]; m <- length(x)
  p <- x / n
  score <- { W <- mean(p * (1 - p) / n); B <- var(p); T <- W + (1 + 1 / m) * B
    df <- if (B == 0) Inf else (m - 1) * (T / ((1 + 1 / m) * B))^2
    f <- function(q) (mean(p) - q)^2 - qt(.975, df)^2 * q * (1 - q) / n * T / W
    c(uniroot(f, c(0, mean(p)), tol = 1e-15)$root, uniroot(f, c(mean(p), 1), tol = 1e-15)$root, W, B, df) }
  logit <- { l <- qlogis(p); W <- mean(1 / x + 1 / (n - x)); B <- var(l); T <- W + (1 + 1 / m) * B
    df <- if (B == 0) Inf else (m - 1) * (T / ((1 + 1 / m) * B))^2
    c(plogis(mean(l)), plogis(mean(l) + c(-1, 1) * qt(.975, df) * sqrt(T)), W, B) }
  score[5] <- ifelse(is.finite(score[5]), score[5], NA)
  item(counts = list_of(x), total = number(n), score = list_of(score), logit = list_of(logit))
})

asked <- list(list(1, 1, .80, c(0, 1), 0), list(1, 1, .75, c(0, 1), -1), list(1, 2, .70, c(1, 0), 0), list(1, 2, .70, c(1, 0), -1),
  list(4, 1, .85, c(0, 1), -1), list(4, 4, .9, c(1, 0), 0), list(1, 1, .82, c(1, 1), 0))
borders <- unlist(lapply(asked, function(a) {
  t <- tables[[a[[1]]]]
  f <- function(l) limit(t, exp(l * a[[4]]), a[[2]], a[[5]]) - a[[3]]
  grid <- seq(log(.01), log(100), length.out = 400)
  values <- sapply(grid, f)
  at <- which(diff(sign(values)) != 0)
  roots <- sapply(at, function(i) exp(uniroot(f, grid[c(i, i + 1)], tol = 1e-13)$root))
  item(table = number(a[[1]] - 1), measure = number(a[[2]] - 1), threshold = number(a[[3]]), axis = list_of(a[[4]]), side = number(a[[5]]), roots = list_of(roots))
}))

cat("{\n", paste(c(block("corrected", corrected), block("weighted", weighted), block("imputed", imputed), block("rubin", rubin), block("borders", borders)), collapse = ",\n"), "\n}\n", sep = "")
