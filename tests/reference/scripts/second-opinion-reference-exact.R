# Second opinions for tests/methods/reference/exact-second-opinion.test.ts, by R base and stats only.
# Run: Rscript second-opinion-reference-exact.R > ../second-opinion-reference-exact.json
# Made with R 4.2.2. elicited: betas from a middle and a percentile by uniroot on pbeta (a median by uniroot within).
# exact: posteriors without any latent count. The likelihood is the multinomial in prevalence, sensitivities and
# specificities, the priors dbeta; integrals over all unknowns by Gauss-Legendre products. Shapes are whole numbers,
# so that every integrand is a polynomial and the rule, with enough points, is exact. Limits by uniroot over integrals
# that end at the limit. Predictive values: the prevalence integrated up to where the predictive value is reached.

number <- function(x) ifelse(is.na(x), "null", sprintf("%.13g", as.numeric(x)))
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")

legendre <- function(n) {
  k <- seq_len(n - 1); off <- k / sqrt(4 * k^2 - 1)
  m <- matrix(0, n, n); m[cbind(k, k + 1)] <- off; m[cbind(k + 1, k)] <- off
  e <- eigen(m, symmetric = TRUE)
  list(at = (e$values + 1) / 2, weight = e$vectors[1, ]^2)
}

# The same with the points drawn towards both ends, where a predictive value turns sharply.
bent <- function(n) {
  r <- legendre(n); v <- r$at
  list(at = v^4 * (35 - 84 * v + 70 * v^2 - 20 * v^3), weight = r$weight * 140 * v^3 * (1 - v)^3)
}

shapes_of <- function(kind, value, w) {
  if (kind == "mean") return(c(value * w, (1 - value) * w))
  if (kind == "mode") return(c(1 + value * w, 1 + (1 - value) * w))
  m <- uniroot(function(l) pbeta(value, plogis(l) * w, plogis(-l) * w) - 0.5, c(-25, 25), tol = 1e-14)$root
  c(plogis(m) * w, plogis(-m) * w)
}
elicited <- function(kind, value, at, chance, between) {
  f <- function(l) { s <- shapes_of(kind, value, exp(l)); pbeta(at, s[1], s[2]) - chance }
  s <- shapes_of(kind, value, exp(uniroot(f, log(between), tol = 1e-14)$root))
  sprintf('{ "kind": "%s", "value": %s, "at": %s, "chance": %s, "alpha": %s, "beta": %s, "median": %s, "lower": %s }',
    kind, number(value), number(at), number(chance), number(s[1]), number(s[2]),
    number(qbeta(0.5, s[1], s[2])), number(qbeta(0.025, s[1], s[2])))
}

# counts: reactive, non-reactive of one test; or both, first only, second only, neither of two.
# priors: prevalence, then sensitivity and specificity of every test, two shapes each.
exact <- function(name, counts, priors, points, pv) {
  tests <- (length(priors) - 1) / 2
  rule <- legendre(points)
  likelihood <- function(u) {
    prev <- u[[1]]
    p <- if (tests == 1) {
      list(prev * u[[2]] + (1 - prev) * (1 - u[[3]]), prev * (1 - u[[2]]) + (1 - prev) * u[[3]])
    } else {
      lapply(list(c(1, 1), c(1, 0), c(0, 1), c(0, 0)), function(r) {
        has <- function(a, s) if (r[a] == 1) s else 1 - s
        prev * has(1, u[[2]]) * has(2, u[[4]]) + (1 - prev) * has(1, 1 - u[[3]]) * has(2, 1 - u[[5]])
      })
    }
    value <- 1
    for (k in seq_along(counts)) value <- value * p[[k]]^counts[k]
    value * exp(lgamma(sum(counts) + 1) - sum(lgamma(counts + 1)))
  }
  # Integral of g times prior times likelihood, unknown `which` only up to `upto`.
  integral <- function(g = function(u) 1, which = 0, upto = 1) {
    n <- length(priors)
    grid <- as.matrix(expand.grid(rep(list(seq_len(points)), n)))
    u <- lapply(seq_len(n), function(k) rule$at[grid[, k]] * if (k == which) upto else 1)
    w <- 1
    for (k in seq_len(n)) {
      w <- w * rule$weight[grid[, k]] * (if (k == which) upto else 1) * dbeta(u[[k]], priors[[k]][1], priors[[k]][2])
    }
    sum(w * likelihood(u) * g(u))
  }
  total <- integral()
  one <- function(k) {
    mean <- integral(function(u) u[[k]]) / total
    sd <- sqrt(integral(function(u) (u[[k]] - mean)^2) / total)
    at <- sapply(c(0.5, 0.025, 0.975), function(p)
      uniroot(function(q) integral(which = k, upto = q) / total - p, c(1e-6, 1 - 1e-9), tol = 1e-12)$root)
    c(mean, sd, at)
  }
  # Predictive value of test t when reactive (side 1) or not (side 0).
  predictive <- function(t, side) {
    parts <- function(u) {
      se <- u[[2 * t]]; sp <- u[[2 * t + 1]]
      if (side == 1) list(se, 1 - sp) else list(1 - se, sp)
    }
    value <- function(u) { p <- parts(u); a <- u[[1]] * p[[1]]; b <- (1 - u[[1]]) * p[[2]]
      if (side == 1) a / (a + b) else b / (a + b) }
    mean <- fine(value) / fine(function(u) 1)
    below <- function(q) {
      # prevalence up to (side 1) or from (side 0) where the predictive value is q, for each of the other unknowns
      g <- as.matrix(expand.grid(rep(list(seq_len(pv)), length(priors) - 1)))
      r <- bent(pv)
      u <- c(list(NULL), lapply(seq_len(ncol(g)), function(k) r$at[g[, k]]))
      p <- parts(u)
      edge <- if (side == 1) q * p[[2]] / (q * p[[2]] + (1 - q) * p[[1]]) else
        (1 - q) * p[[2]] / ((1 - q) * p[[2]] + q * p[[1]])
      w <- 1
      for (k in seq_len(ncol(g))) w <- w * r$weight[g[, k]] * dbeta(u[[k + 1]], priors[[k + 1]][1], priors[[k + 1]][2])
      sum(sapply(seq_len(points), function(i) {
        prev <- if (side == 1) edge * rule$at[i] else edge + (1 - edge) * rule$at[i]
        long <- if (side == 1) edge else 1 - edge
        u[[1]] <- prev
        sum(w * rule$weight[i] * long * dbeta(prev, priors[[1]][1], priors[[1]][2]) * likelihood(u))
      })) / total
    }
    at <- sapply(c(0.5, 0.025, 0.975), function(p) uniroot(function(q) below(q) - p, c(1e-6, 1 - 1e-6), tol = 1e-10)$root)
    c(mean, at)
  }
  # Means of predictive values are no polynomials: more points.
  fine <- function(g) {
    r <- bent(pv); n <- length(priors)
    grid <- as.matrix(expand.grid(rep(list(seq_len(pv)), n)))
    u <- lapply(seq_len(n), function(k) r$at[grid[, k]])
    w <- 1
    for (k in seq_len(n)) w <- w * r$weight[grid[, k]] * dbeta(u[[k]], priors[[k]][1], priors[[k]][2])
    sum(w * likelihood(u) * g(u))
  }
  shares <- sapply(seq_along(priors), one)
  predicted <- if (tests == 1) sapply(c(1, 0), function(side) predictive(1, side)) else matrix(0, 4, 0)
  sprintf('{ "name": "%s", "counts": %s, "priors": [%s], "logEvidence": %s, "shares": [%s], "predictive": [%s] }', name,
    list_of(counts), paste(sapply(priors, list_of), collapse = ", "), number(log(total)),
    paste(apply(shares, 2, list_of), collapse = ", "),
    if (ncol(predicted) == 0) "" else paste(apply(predicted, 2, list_of), collapse = ", "))
}

cat('{\n  "elicited": [\n    ', paste(c(
  elicited("mean", 0.95, 0.9, 0.05, c(5, 1e5)),
  elicited("mean", 0.3, 0.5, 0.9, c(0.1, 1e4)),
  elicited("mode", 0.95, 0.9, 0.05, c(1, 1e5)),
  elicited("mode", 0.02, 0.1, 0.99, c(0.1, 1e5)),
  elicited("median", 0.8, 0.95, 0.975, c(1, 1e4)),
  elicited("median", 0.5, 0.1, 0.25, c(0.05, 1e3)),
  elicited("mean", 0.9, 0.88, 0.25, c(20, 1e5))
), collapse = ",\n    "), "\n  ],\n", sep = "")
cat('  "exact": [\n    ', paste(c(
  exact("one test, sure of it", c(9, 11), list(c(1, 1), c(12, 2), c(18, 2)), 30, 90),
  exact("one test, vague", c(4, 20), list(c(2, 3), c(3, 2), c(4, 1)), 24, 90),
  exact("one test, nobody reactive", c(0, 15), list(c(1, 4), c(5, 1), c(9, 1)), 24, 90),
  exact("two tests", c(4, 2, 1, 6), list(c(1, 1), c(5, 2), c(6, 1), c(4, 2), c(5, 1)), 11, 14),
  exact("two tests, a cell empty", c(2, 3, 0, 5), list(c(2, 2), c(4, 1), c(3, 1), c(2, 2), c(7, 2)), 11, 14)
), collapse = ",\n    "), "\n  ]\n}\n", sep = "")
