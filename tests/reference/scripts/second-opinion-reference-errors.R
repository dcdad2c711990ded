# Second opinions for tests/methods/reference/errors-second-opinion.test.ts, by R base and stats only.
# Run: Rscript second-opinion-reference-errors.R > ../second-opinion-reference-errors.json
# Made with R 4.2.2. Corrections: three linear equations by solve. Likelihood limits: the model's own parameters
# (prevalence, sensitivity, specificity), the two others maximised by optim at every supposed value, ends by uniroot.
# Standard errors: central differences of the whole correction, multinomial covariance. Draws: 2 million Dirichlet
# tables by rgamma. Apparent, composite, discrepant: every combination of results by expand.grid. Borders: uniroot on
# the limit less the threshold.

number <- function(x) ifelse(is.na(x), "null", sprintf("%.17g", as.numeric(x)))
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")

# Cells a, b, c, d of kit and reference from prevalence, Se, Sp, reference Se, Sp, covariances
table.of <- function(v, se, sp, r, s, cd = 0, cn = 0) {
  d <- c(se * r + cd, se * (1 - r) - cd, (1 - se) * r - cd, (1 - se) * (1 - r) + cd)
  n <- c((1 - sp) * (1 - s) + cn, (1 - sp) * s - cn, sp * (1 - s) - cn, sp * s + cn)
  v * d + (1 - v) * n
}
# Unknown: v, v Se, (1 - v)(1 - Sp). Three cells are linear in them.
correct <- function(p, r, s, cd = 0, cn = 0) {
  # a + c = v r + (1 - v)(1 - s); a = vSe r + w (1 - s) + v cd + (1 - v) cn; a + b = vSe + w
  m <- rbind(c(r - 1 + s, 0, 0), c(cd - cn, r, 1 - s), c(0, 1, 1))
  x <- solve(m, c(p[1] + p[3] - 1 + s, p[1] - cn, p[1] + p[2]))
  c(v = x[1], se = x[2] / x[1], sp = 1 - x[3] / (1 - x[1]))
}
lost <- function(x, r, s, cd, cn, which, at) {
  start <- correct(x / sum(x), r, s, cd, cn)
  f <- function(q) {
    p <- if (which == "se") table.of(q[1], at, q[2], r, s, cd, cn) else table.of(q[1], q[2], at, r, s, cd, cn)
    if (any(p <= 0)) return(1e10)
    -sum(x * log(p))
  }
  best <- Inf
  for (v0 in c(start[1], start[1] * .8, start[1] * 1.2)) for (o in c(ifelse(which == "se", start[3], start[2]), .95, .9, .97)) {
    if (f(c(v0, o)) >= 1e10) next
    one <- optim(c(v0, o), f, control = list(reltol = 1e-15, maxit = 20000, parscale = c(.01, .01)))
    one <- optim(one$par, f, control = list(reltol = 1e-16, maxit = 20000, parscale = c(.001, .001)))
    best <- min(best, one$value)
  }
  2 * (best + sum(x * log(x / sum(x))))
}
limits <- function(x, r, s, cd, cn, which, level = .95) {
  est <- correct(x / sum(x), r, s, cd, cn)[[which]]; q <- qchisq(level, 1)
  f <- function(at) lost(x, r, s, cd, cn, which, at) - q
  c(uniroot(f, c(est - .2, min(est, 1)), tol = 1e-10)$root, if (f(.999999) <= 0) 1 else uniroot(f, c(est, .999999), tol = 1e-10)$root)
}
delta <- function(x, r, s, cd, cn, vr, vs) {
  p <- x / sum(x); n <- sum(x); h <- 1e-6
  g <- sapply(1:6, function(i) {
    up <- c(p, r, s); dn <- up; up[i] <- up[i] + h; dn[i] <- dn[i] - h
    full <- function(q) correct.loose(q[1:4], q[5], q[6], cd, cn)
    (full(up) - full(dn))[2:3] / (2 * h)
  })
  cov <- matrix(0, 6, 6); cov[1:4, 1:4] <- (diag(p) - p %o% p) / n; cov[5, 5] <- vr; cov[6, 6] <- vs
  sqrt(diag(g %*% cov %*% t(g)))
}
# The same equations; the four cells need not add up to 1
correct.loose <- correct
set.seed(5)
cases <- list(
  list(c(86, 44, 29, 841), .9, .97, 0, 0, 0, 0), list(c(180, 12, 25, 783), .92, .995, .01, .001, .0004, .00002),
  list(c(60, 20, 8, 112), .97, .93, -.0005, .002, .0009, .0012), list(c(310, 15, 22, 653), .98, .99, 0, .003, 0, .00005))
corrected <- lapply(cases, function(k) {
  x <- k[[1]]; r <- k[[2]]; s <- k[[3]]; cd <- k[[4]]; cn <- k[[5]]
  est <- correct(x / sum(x), r, s, cd, cn)
  item(counts = list_of(x), reference = list_of(c(r, s)), covariance = list_of(c(cd, cn)), variance = list_of(c(k[[6]], k[[7]])),
    correction = list_of(est), sensitivity = list_of(limits(x, r, s, cd, cn, "se")),
    specificity = list_of(limits(x, r, s, cd, cn, "sp")), errors = list_of(delta(x, r, s, cd, cn, k[[6]], k[[7]])))
})
# Reference known by counts: right of total
drawn <- lapply(list(list(c(180, 12, 25, 783), c(184, 200), c(398, 400)), list(c(60, 20, 8, 112), c(96, 100), c(140, 150))), function(k) {
  x <- k[[1]]; m <- 2e6
  g <- sapply(x + .5, function(a) rgamma(m, a)); g <- g / rowSums(g)
  r <- rbeta(m, k[[2]][1] + .5, k[[2]][2] - k[[2]][1] + .5); s <- rbeta(m, k[[3]][1] + .5, k[[3]][2] - k[[3]][1] + .5)
  j <- r + s - 1; v <- (g[, 1] + g[, 3] - 1 + s) / j; ok <- j > 0 & v > 0 & v < 1
  u <- (s * g[, 1] - (1 - s) * g[, 2]) / j; w <- (r * g[, 2] - (1 - r) * g[, 1]) / j
  se <- pmin(1, pmax(0, u / v))[ok]; sp <- pmin(1, pmax(0, 1 - w / (1 - v)))[ok]; q <- c(.5, .025, .975)
  item(counts = list_of(x), sensitivity = list_of(k[[2]]), specificity = list_of(k[[3]]), se = list_of(quantile(se, q)),
    sp = list_of(quantile(sp, q)), prevalence = list_of(quantile(v[ok], q)))
})

apparent <- apply(rbind(c(.95, .99, .99, .99, 0, 0, .02), c(.95, .99, .99, .999, 0, 0, .02), c(.92, .96, .8, .99, .04, .004, .1),
  c(.7, .9, .85, .6, -.03, .02, .4)), 1, function(k) {
  p <- table.of(k[7], k[1], k[2], k[3], k[4], k[5], k[6])
  item(kit = list_of(k[1:2]), reference = list_of(k[3:4]), covariance = list_of(k[5:6]), prevalence = number(k[7]),
    cells = list_of(p), apparent = list_of(c(p[1] / (p[1] + p[3]), p[4] / (p[2] + p[4]), p[1] + p[3])))
})

# kit, first, second, prevalence, covariances of the two references: every combination
composite <- apply(rbind(c(.88, .97, .7, .99, .8, .98, .15, 0, 0), c(.95, .9, .6, 1, .9, .95, .03, 0, 0),
  c(.9, .95, .75, .97, .85, .96, .2, .05, .01)), 1, function(k) {
  g <- expand.grid(d = 0:1, kit = 0:1, one = 0:1, two = 0:1)
  g$p <- apply(g, 1, function(x) {
    pos <- function(se, sp) if (x[1]) se else 1 - sp
    a <- pos(k[3], k[4]); b <- pos(k[5], k[6]); cv <- if (x[1]) k[8] else k[9]
    pair <- if (x[3] && x[4]) a * b + cv else if (x[3]) a * (1 - b) - cv else if (x[4]) (1 - a) * b - cv else (1 - a) * (1 - b) + cv
    q <- pos(k[1], k[2])
    (if (x[1]) k[7] else 1 - k[7]) * (if (x[2]) q else 1 - q) * pair
  })
  of <- function(ref) c(sum(g$p[ref & g$d == 1]) / sum(g$p[g$d == 1]), sum(g$p[!ref & g$d == 0]) / sum(g$p[g$d == 0]),
    sum(g$p[ref & g$kit == 1]) / sum(g$p[ref]), sum(g$p[!ref & g$kit == 0]) / sum(g$p[!ref]), sum(g$p[ref]))
  item(tests = list_of(k[1:6]), prevalence = number(k[7]), covariance = list_of(k[8:9]), any = list_of(of(g$one | g$two)),
    both = list_of(of(g$one & g$two)), first = list_of(of(g$one == 1)), second = list_of(of(g$two == 1)))
})

discrepant <- apply(rbind(c(.9, .97, .8, .99, 1, 1, .1), c(.9, .97, .8, .99, .95, .98, .1), c(.7, .99, .95, .9, .9, .999, .03)), 1, function(k) {
  g <- expand.grid(d = 0:1, kit = 0:1, other = 0:1, judge = 0:1)
  one <- function(x, d, se, sp) ifelse(d == 1, ifelse(x == 1, se, 1 - se), ifelse(x == 1, 1 - sp, sp))
  g$p <- ifelse(g$d == 1, k[7], 1 - k[7]) * one(g$kit, g$d, k[1], k[2]) * one(g$other, g$d, k[3], k[4]) * one(g$judge, g$d, k[5], k[6])
  final <- ifelse(g$kit == g$other, g$kit, g$judge)
  of <- function(ref) c(weighted.mean(g$kit[ref == 1], g$p[ref == 1]), weighted.mean(1 - g$kit[ref == 0], g$p[ref == 0]))
  item(tests = list_of(k[1:6]), prevalence = number(k[7]), unresolved = list_of(of(g$other)), resolved = list_of(of(final)),
    everybody = list_of(of(g$judge)), retested = number(sum(g$p[g$kit != g$other])))
})

# How bad may the reference be before the lower limit falls to the threshold?
tipping <- list(local({
  x <- c(188, 14, 9, 789); t <- .93
  f <- function(s) limits(x, .98, s, 0, 0, "se")[1] - t
  item(counts = list_of(x), reference = list_of(c(.98, .998)), threshold = number(t), at = number(f(.998) + t),
    border = number(uniroot(f, c(.99, 1 - 1e-9), tol = 1e-10)$root))
}), local({
  x <- c(188, 14, 9, 789); t <- .92
  f <- function(cd) limits(x, .98, .998, cd, 0, "se")[1] - t
  item(counts = list_of(x), reference = list_of(c(.98, .998)), threshold = number(t), at = number(f(0) + t),
    covariance = number(uniroot(f, c(0, .018), tol = 1e-10)$root))
}))

cat("{\n", paste(c(block("corrected", corrected), block("drawn", drawn), block("apparent", apparent), block("composite", composite),
  block("discrepant", discrepant), block("tipping", tipping)), collapse = ",\n"), "\n}\n", sep = "")
