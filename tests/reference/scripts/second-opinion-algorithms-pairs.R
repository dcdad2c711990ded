# Second opinions for tests/methods/algorithms/pairs-second-opinion.test.ts, by R base and stats only.
# Run: Rscript second-opinion-algorithms-pairs.R > ../second-opinion-algorithms-pairs.json
# Made with R 4.2.2. Two tests: the share reactive with both is found by uniroot so that two 0/1 results have the
# stated correlation, rules are added up over the eight cells. Patterns: dmultinom over every table of expand.grid.
# Dependence: cor and cov of one line per person, fisher.test, and 4 million Dirichlet draws for the limits.
# Discordance: binom.test, qbinom; uncertain specificities by integrate over dbeta. Stock: the distribution of the
# sum person by person, no doubling; binomial ones by qbinom.

number <- function(x) ifelse(is.na(x), "null", sprintf("%.17g", as.numeric(x)))
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")

# Two tests: weighted correlation of two 0/1 results
weighted.cor <- function(both, p, q) {
  w <- c(both, p - both, q - both, 1 - p - q + both); x <- c(1, 1, 0, 0); y <- c(1, 0, 1, 0)
  mx <- sum(w * x); my <- sum(w * y)
  sum(w * (x - mx) * (y - my)) / sqrt(sum(w * (x - mx)^2) * sum(w * (y - my)^2))
}
cells <- function(p, q, phi) {
  low <- max(0, p + q - 1); high <- min(p, q)
  both <- if (phi == 0) p * q else uniroot(function(b) weighted.cor(b, p, q) - phi, c(low, high), tol = 1e-16)$root
  c(both, p - both, q - both, 1 - p - q + both)
}
two <- apply(rbind(c(.99, .98, .99, .98, .05, .1, .05), c(.99, .98, .99, .98, .01, .2, .2), c(.92, .96, .8, .99, .1, .3, .15),
  c(.7, .9, .85, .6, .3, -.1, -.05), c(.995, .985, .96, .999, .002, 0, .08)), 1, function(k) {
  d <- cells(k[1], k[3], k[6]); n <- cells(1 - k[2], 1 - k[4], k[7]); v <- k[5]
  item(kits = list_of(k[1:4]), prevalence = number(v), phi = list_of(k[6:7]), serial = list_of(c(d[1], sum(n[2:4]),
    v * d[1] / (v * d[1] + (1 - v) * n[1]), (1 - v) * sum(n[2:4]) / ((1 - v) * sum(n[2:4]) + v * sum(d[2:4])))),
    parallel = list_of(c(sum(d[1:3]), n[4], v * sum(d[1:3]) / (v * sum(d[1:3]) + (1 - v) * sum(n[1:3])),
      (1 - v) * n[4] / ((1 - v) * n[4] + v * d[4]))))
})

# Patterns
fit <- lapply(list(list(c(9, 2, 1, 8), c(.4, .15, .05, .4)), list(c(30, 1, 4), c(.9, .05, .05)),
  list(c(0, 3, 2, 7, 1), c(.1, .1, .2, .5, .1)), list(c(12, 3), c(.9, .1)), list(c(5, 0, 1, 0, 2, 4), rep(1, 6) / 6)), function(a) {
  x <- a[[1]]; p <- a[[2]]; n <- sum(x)
  grid <- as.matrix(expand.grid(rep(list(0:n), length(x) - 1))); grid <- grid[rowSums(grid) <= n, , drop = FALSE]
  grid <- cbind(grid, n - rowSums(grid))
  mass <- apply(grid, 1, dmultinom, prob = p)
  g <- function(y) 2 * sum(ifelse(y == 0, 0, y * log(y / (n * p)))); s <- function(y) sum((y - n * p)^2 / (n * p))
  gs <- apply(grid, 1, g); ss <- apply(grid, 1, s)
  test <- suppressWarnings(chisq.test(x, p = p))
  item(counts = list_of(x), probabilities = list_of(p), logProbability = number(dmultinom(x, prob = p, log = TRUE)),
    g2 = number(g(x)), gP = number(pchisq(g(x), length(x) - 1, lower.tail = FALSE)), gExact = number(sum(mass[gs >= g(x) - 1e-9])),
    x2 = number(test$statistic), xP = number(test$p.value), xExact = number(sum(mass[ss >= s(x) - 1e-9])),
    exact = number(sum(mass[mass <= dmultinom(x, prob = p) * (1 + 1e-9)])),
    residuals = list_of((x - n * p) / sqrt(n * p * (1 - p))))
})

# Dependence
set.seed(11)
depend <- lapply(list(c(3, 5, 4, 488), c(0, 4, 3, 293), c(180, 6, 9, 5), c(40, 20, 15, 45), c(1, 12, 0, 87)), function(x) {
  one <- rep(c(1, 1, 0, 0), x); other <- rep(c(1, 0, 1, 0), x); n <- sum(x)
  table <- matrix(x[c(1, 3, 2, 4)], 2)
  g <- sapply(x + .5, function(k) rgamma(4e6, k)); g <- g / rowSums(g)
  r <- g[, 1] + g[, 2]; s <- g[, 1] + g[, 3]; cv <- g[, 1] - r * s; ph <- cv / sqrt(r * (1 - r) * s * (1 - s))
  item(counts = list_of(x), covariance = number(cov(one, other) * (n - 1) / n), phi = number(cor(one, other)),
    twoSided = number(fisher.test(table)$p.value), greater = number(fisher.test(table, alternative = "greater")$p.value),
    less = number(fisher.test(table, alternative = "less")$p.value), phiLimits = list_of(quantile(ph, c(.025, .975))),
    covarianceLimits = list_of(quantile(cv, c(.025, .975))))
})

# Delta method: numerical slopes of cov, and of Fisher's z of phi
delta <- lapply(list(c(30, 50, 40, 880), c(40, 20, 15, 45), c(180, 16, 19, 25)), function(x) {
  n <- sum(x); p <- x / n
  f <- list(function(p) { p <- p / sum(p); p[1] - (p[1] + p[2]) * (p[1] + p[3]) },
    function(p) { p <- p / sum(p); r <- p[1] + p[2]; s <- p[1] + p[3]; atanh((p[1] - r * s) / sqrt(r * (1 - r) * s * (1 - s))) })
  lim <- lapply(f, function(h) {
    slope <- sapply(1:4, function(i) { e <- replace(numeric(4), i, 1e-5); (h(p + e) - h(p - e)) / 2e-5 })
    h(p) + c(-1, 1) * qnorm(.975) * sqrt((sum(p * slope^2) - sum(p * slope)^2) / n)
  })
  item(counts = list_of(x), covarianceLimits = list_of(lim[[1]]), phiLimits = list_of(tanh(lim[[2]])))
})

# Discordance, kits known
discord <- apply(rbind(c(.99, .98, .98, .995, .02, .1, .08, 4000, 98, 61), c(.95, .97, .97, .99, .1, 0, 0, 500, 70, 12),
  c(.99, .99, .9, .99, .3, .2, .1, 1000, 310, 25)), 1, function(k) {
  d <- cells(k[1], k[3], k[6]); n <- cells(1 - k[2], 1 - k[4], k[7]); v <- k[5]
  first <- v * sum(d[1:2]) + (1 - v) * sum(n[1:2]); share <- (v * d[2] + (1 - v) * n[2]) / first
  b <- binom.test(k[10], k[9], share); a <- binom.test(k[9], k[8], first)
  item(kits = list_of(k[1:4]), prevalence = number(v), phi = list_of(k[6:7]), tested = k[8], firstReactive = k[9],
    secondNonreactive = k[10], first = number(first), share = number(share), diseased = number(v * d[2] / (v * d[2] + (1 - v) * n[2])),
    twoSided = number(b$p.value), asMany = number(pbinom(k[10] - 1, k[9], share, lower.tail = FALSE)), limits = list_of(qbinom(c(.025, .975), k[9], share)),
    positivity = number(a$p.value))
})
# Discordance, both specificities uncertain, independent kits, sensitivities 1: a double integral
unsure <- apply(rbind(c(392, 400, 497, 500, .03, 120, 60), c(95, 100, 199, 200, .1, 60, 35)), 1, function(k) {
  a1 <- k[1] + .5; b1 <- k[2] - k[1] + .5; mean2 <- (k[3] + .5) / (k[4] + 1); v <- k[5]
  tail <- function(f) integrate(function(s1) sapply(s1, function(u) dbeta(u, a1, b1) * integrate(function(s2)
    dbeta(s2, k[3] + .5, k[4] - k[3] + .5) * f((1 - v) * (1 - u) * s2 / (v + (1 - v) * (1 - u))), qbeta(1e-12, k[3] + .5, k[4] - k[3] + .5), 1, rel.tol = 1e-9)$value),
    qbeta(1e-12, a1, b1), qbeta(1 - 1e-12, a1, b1), rel.tol = 1e-8)$value
  mass <- sapply(0:k[6], function(x) tail(function(s) dbinom(x, k[6], s))); cum <- cumsum(mass)
  item(counts = list_of(k[1:4]), prevalence = number(v), firstReactive = k[6], secondNonreactive = k[7],
    asMany = number(1 - c(0, cum)[k[7] + 1]), asFew = number(cum[k[7] + 1]), limits = list_of(c(which(cum >= .025)[1] - 1, which(cum >= .975)[1] - 1)))
})

# Stock
stocks <- lapply(list(list(300, 0:3, c(.7, .2, .06, .04)), list(50, c(1, 3), c(.8, .2)), list(1200, 0:1, c(.93, .07)), list(80, c(0, 2, 4), c(.5, .3, .2))), function(a) {
  one <- numeric(max(a[[2]]) + 1); one[a[[2]] + 1] <- a[[3]]; sum <- 1
  for (i in seq_len(a[[1]])) {
    next.sum <- numeric(length(sum) + length(one) - 1)
    for (j in seq_along(one)) if (one[j] > 0) { at <- seq_along(sum) + j - 1; next.sum[at] <- next.sum[at] + one[j] * sum }
    sum <- next.sum
  }
  above <- rev(cumsum(rev(sum))); above <- c(above[-1], 0)
  risks <- c(.5, .05, .01, 1e-4); r <- sapply(risks, function(q) which(above <= q)[1] - 1)
  item(clients = a[[1]], runs = list_of(a[[2]]), probabilities = list_of(a[[3]]), risks = list_of(risks), ordered = list_of(r), runsOut = list_of(above[r + 1]))
})
large <- apply(rbind(c(1e6, .02), c(1e7, .3), c(1e8, .001)), 1, function(k)
  item(clients = number(k[1]), share = number(k[2]), ordered = number(qbinom(.95, k[1], k[2])), orderedRare = number(qbinom(.999, k[1], k[2]))))

cat("{\n", paste(c(block("twoTests", two), block("patternFit", fit), block("dependence", depend), block("delta", delta),
  block("discordance", discord), block("unsure", unsure), block("stock", stocks), block("largeStock", large)), collapse = ",\n"), "\n}\n", sep = "")
