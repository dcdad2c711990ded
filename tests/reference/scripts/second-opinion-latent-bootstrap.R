# Second opinions for tests/methods/reference/latent-bootstrap.test.ts, by R base and stats only.
# Run: Rscript second-opinion-latent-bootstrap.R > ../second-opinion-latent-bootstrap.json
# Made with R 4.2.2. Parametric bootstrap of latent class models with independent errors: counts by rmultinom from the
# fitted model, every replicate fitted by expectation and maximisation alone (up to 20,000 rounds), all replicates at once. Percentiles are
# those of quantile(type = 1). People by pattern: bit t - 1 of the place is the result of test t.

number <- function(x) sprintf("%.9g", x)
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")

# counts: replicates x cells x populations. Prevalences, then P(reactive) with the condition, then without.
em <- function(counts, start, tests, rounds) {
  n <- dim(counts)[1]; cells <- dim(counts)[2]; pops <- dim(counts)[3]
  bit <- sapply(seq_len(tests), function(t) (seq_len(cells) - 1) %/% 2^(t - 1) %% 2)
  theta <- matrix(start, n, length(start), byrow = TRUE)
  people <- apply(counts, c(1, 3), sum)
  for (round in seq_len(rounds)) {
    p <- theta[, pops + seq_len(tests), drop = FALSE]; q <- theta[, pops + tests + seq_len(tests), drop = FALSE]
    ill <- matrix(1, n, cells); well <- matrix(1, n, cells)
    for (t in seq_len(tests)) for (k in seq_len(cells)) {
      ill[, k] <- ill[, k] * (if (bit[k, t] == 1) p[, t] else 1 - p[, t])
      well[, k] <- well[, k] * (if (bit[k, t] == 1) q[, t] else 1 - q[, t])
    }
    with <- matrix(0, n, cells); without <- matrix(0, n, cells); nxt <- theta
    for (g in seq_len(pops)) {
      a <- theta[, g] * ill; b <- (1 - theta[, g]) * well
      share <- a / pmax(a + b, 1e-300)
      c <- matrix(counts[, , g], n)
      with <- with + c * share; without <- without + c * (1 - share)
      nxt[, g] <- rowSums(c * share) / people[, g]
    }
    for (t in seq_len(tests)) {
      nxt[, pops + t] <- rowSums(with[, bit[, t] == 1, drop = FALSE]) / rowSums(with)
      nxt[, pops + tests + t] <- rowSums(without[, bit[, t] == 1, drop = FALSE]) / rowSums(without)
    }
    moved <- max(abs(nxt - theta)); theta <- nxt
    if (moved < 1e-7) break
  }
  theta
}

case <- function(name, tests, observed, start, replicates) {
  cells <- 2^tests; pops <- length(observed)
  arr <- array(unlist(observed), c(1, cells, pops))
  fit <- em(arr, start, tests, 200000)[1, ]
  bit <- sapply(seq_len(tests), function(t) (seq_len(cells) - 1) %/% 2^(t - 1) %% 2)
  chance <- function(s) apply(bit, 1, function(r) prod(ifelse(r == 1, s, 1 - s)))
  p <- fit[pops + seq_len(tests)]; q <- fit[pops + tests + seq_len(tests)]
  set.seed(20)
  drawn <- array(0, c(replicates, cells, pops))
  for (g in seq_len(pops)) {
    drawn[, , g] <- t(rmultinom(replicates, sum(observed[[g]]), fit[g] * chance(p) + (1 - fit[g]) * chance(q)))
  }
  theta <- em(drawn, fit, tests, 20000)
  limits <- apply(theta, 2, quantile, probs = c(0.025, 0.975), type = 1)
  sd <- apply(theta, 2, sd)
  sprintf('  { "name": "%s", "tests": %d, "counts": [%s], "replicates": %d,\n    "shares": %s,\n    "lower": %s,\n    "upper": %s,\n    "deviations": %s }',
    name, tests, paste(sapply(observed, list_of), collapse = ", "), replicates, list_of(fit), list_of(limits[1, ]),
    list_of(limits[2, ]), list_of(sd))
}

cat("[\n", paste(c(
  case("two tests, two populations (Hui and Walter 1980, memory)", 2, list(c(528, 4, 9, 14), c(367, 31, 37, 887)),
    c(0.03, 0.7, 0.95, 0.95, 0.02, 0.02), 20000),
  case("three tests, one population", 3, list(c(446, 25, 53, 12, 74, 83, 37, 170)),
    c(0.35, 0.85, 0.7, 0.95, 0.05, 0.1, 0.1), 20000)
), collapse = ",\n"), "\n]\n", sep = "")
