# Second opinions for tests/methods/planning/second-opinion-precision.test.ts, by R base and stats only.
# Run: Rscript second-opinion-planning-precision.R > ../second-opinion-planning-precision.json
# Made with R 4.2.2. Precision: the interval of every possible result (qbeta, prop.test's score formula), its length
# weighted with dbinom, at every total up to the horizon. Enrolment: those with the condition are dbinom or, for an
# uncertain prevalence, exp(lchoose + lbeta - lbeta); given them, usable pairs of either kind are independent
# binomials (pbinom); totals by halving. No quadrature anywhere. Effort: days by uniroot on ppois, means by integrate.

number <- function(x) ifelse(is.na(x), "null", sprintf("%.17g", as.numeric(x)))
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")
quoted <- function(x) paste0('"', x, '"')

# Precision
exact <- function(k, n, out) cbind(ifelse(k == 0, 0, qbeta(out, k, n - k + 1)),
  ifelse(k == n, 1, qbeta(out, k + 1, n - k, lower.tail = FALSE)))
score <- function(k, n, out) {
  z <- qnorm(1 - out); p <- k / n; mid <- (p + z^2 / (2 * n)) / (1 + z^2 / n)
  half <- z * sqrt(p * (1 - p) / n + z^2 / (4 * n^2)) / (1 + z^2 / n)
  cbind(ifelse(k == 0, 0, mid - half), ifelse(k == n, 1, mid + half))
}
jeffreys <- function(k, n, out) cbind(ifelse(k == 0, 0, qbeta(out, k + .5, n - k + .5)),
  ifelse(k == n, 1, qbeta(out, k + .5, n - k + .5, lower.tail = FALSE)))
reached <- function(good) {
  first <- which(good)[1]
  bad <- which(!good)
  stays <- if (!length(bad)) 1 else if (max(bad) == length(good)) NA else max(bad) + 1
  c(first, stays)
}
precision <- function(expected, half, level, assurance, horizon, method, interval) {
  both <- suppressWarnings(sapply(1:horizon, function(n) {
    k <- 0:n; l <- interval(k, n, (1 - level) / 2); h <- (l[, 2] - l[, 1]) / 2; d <- dbinom(k, n, expected)
    c(sum(d * h), sum(d[h <= half]))
  }))
  e <- reached(both[1, ] <= half); a <- reached(both[2, ] >= assurance)
  z <- qnorm(1 - (1 - level) / 2); n <- z^2 * expected * (1 - expected) / half^2
  item(expected = number(expected), halfWidth = number(half), level = number(level), assurance = number(assurance),
    horizon = horizon, method = quoted(method), first = number(e[1]), stays = number(e[2]),
    meanHalfWidth = number(if (is.na(e[2])) NA else both[1, e[2]]), assuredFirst = number(a[1]),
    assuredStays = number(a[2]), probability = number(if (is.na(a[2])) NA else both[2, a[2]]), unrounded = number(n))
}
intervals <- list(clopper_pearson = exact, wilson = score, jeffreys = jeffreys)
asked <- list(c(.98, .02, .95, .9, 500), c(.5, .05, .95, .8, 500), c(.9, .04, .9, .95, 400), c(.03, .02, .99, .9, 900),
  c(.7, .03, .95, .9, 300), c(1, .05, .95, .9, 200), c(.95, .025, .95, .5, 500))
precisions <- unlist(lapply(asked, function(a) sapply(names(intervals), function(m)
  precision(a[1], a[2], a[3], a[4], a[5], m, intervals[[m]]))))

# Enrolment
have <- function(N, prevalence) {
  d <- 0:N
  if (length(prevalence) == 1) dbinom(d, N, prevalence)
  else exp(lchoose(N, d) + lbeta(prevalence[1] + d, prevalence[2] + N - d) - lbeta(prevalence[1], prevalence[2]))
}
chances <- function(N, a, b, prevalence, uP, uN) {
  d <- 0:N; m <- have(N, prevalence)
  x <- pbinom(a - 1, d, uP, lower.tail = FALSE); y <- pbinom(b - 1, N - d, uN, lower.tail = FALSE)
  c(sum(m * x), sum(m * y), sum(m * x * y))
}
fewest <- function(which, assurance, ...) {
  if (chances(0, ...)[which] >= assurance) return(0)
  high <- 1
  while (chances(high, ...)[which] < assurance) high <- high * 2
  low <- high %/% 2
  while (high - low > 1) {
    middle <- (low + high) %/% 2
    if (chances(middle, ...)[which] >= assurance) high <- middle else low <- middle
  }
  high
}
enrolment <- function(a, b, given, prevalence, losses, assurance) {
  kept <- (1 - losses[1]) * (1 - losses[2]); uP <- kept * (1 - losses[3]); uN <- kept * (1 - losses[4])
  n <- sapply(1:3, function(w) fewest(w, assurance, a, b, prevalence, uP, uN))
  at <- chances(n[3], a, b, prevalence, uP, uN); before <- chances(n[3] - 1, a, b, prevalence, uP, uN)
  mean <- if (length(prevalence) == 1) prevalence else prevalence[1] / sum(prevalence)
  naive <- max(ceiling(a / (mean * uP) - 1e-9), ceiling(b / ((1 - mean) * uN) - 1e-9))
  item(positives = a, negatives = b, prevalence = given, invalid = number(losses[1]), lost = number(losses[2]),
    unverified = number(losses[3]), unverifiedNegative = number(losses[4]), assurance = number(assurance),
    forPositives = n[1], forNegatives = n[2], total = n[3], chancePositives = number(at[1]),
    chanceNegatives = number(at[2]), chanceBoth = number(at[3]), before = number(before[3]), naive = naive,
    fallsShort = number(1 - chances(naive, a, b, prevalence, uP, uN)[3]))
}
fixed <- function(p) sprintf('{ "kind": "fixed", "value": %s }', number(p))
counted <- function(k, n) sprintf('{ "kind": "counts", "positive": %d, "total": %d }', k, n)
beta <- function(a, b) sprintf('{ "kind": "beta", "a": %s, "b": %s }', number(a), number(b))
none <- c(0, 0, 0, 0)
enrolments <- c(
  enrolment(189, 100, fixed(.02), .02, none, .9),
  enrolment(100, 300, fixed(.25), .25, c(.01, .03, .05, .05), .8),
  enrolment(60, 60, fixed(.5), .5, c(.05, .1, .02, .3), .9),
  enrolment(40, 120, counted(12, 150), c(12.5, 138.5), c(.02, 0, .05, .05), .8),
  enrolment(80, 80, counted(50, 100), c(50.5, 50.5), c(.02, .03, .05, .2), .95),
  enrolment(30, 200, counted(3, 20), c(3.5, 17.5), c(.1, 0, 0, .9), .9),
  enrolment(10, 10, beta(.4, 1.2), c(.4, 1.2), c(.05, 0, 0, 0), .5),
  enrolment(20, 0, beta(30, 170), c(30, 170), none, .99),
  enrolment(0, 150, beta(3, 5), c(3, 5), c(.1, .1, .1, .1), .9))

# Effort
effort <- function(total, perDay, opens, assurances) {
  people <- function(t) sapply(t, function(s) sum(perDay * pmax(0, s - opens)))
  still <- function(t) ppois(total - 1, people(t))
  far <- uniroot(function(t) people(t) - total - 12 * sqrt(total) - 80, c(0, 1e6), tol = 1e-10)$root
  mean_from <- function(since) {
    ends <- sort(unique(c(since, opens[opens > since & opens < far], seq(since, max(far, since), length.out = 200))))
    sum(sapply(seq_len(length(ends) - 1), function(i)
      integrate(still, ends[i], ends[i + 1], rel.tol = 1e-12, abs.tol = 0, stop.on.error = FALSE)$value))
  }
  days <- sapply(assurances, function(p)
    uniroot(function(t) 1 - still(t) - p, c(0, far), tol = 1e-13)$root)
  at_site <- sapply(seq_along(opens), function(i) if (opens[i] >= far) 0 else perDay[i] * mean_from(opens[i]))
  sites <- paste(sprintf('{ "label": "%s", "perDay": %s, "opensAfterDays": %s }', letters[seq_along(opens)],
    number(perDay), number(opens)), collapse = ", ")
  item(total = total, sites = paste0("[", sites, "]"), assurances = paste0("[", paste(assurances, collapse = ", "), "]"),
    expected = number(mean_from(0)), days = paste0("[", paste(number(days), collapse = ", "), "]"),
    people = paste0("[", paste(number(at_site), collapse = ", "), "]"))
}
efforts <- c(effort(60, 3, 0, c(.5, .9)), effort(300, c(2, 3, .5), c(0, 20, 60), c(.5, .8, .95)),
  effort(5, c(.4, 1.5), c(3, 6), c(.1, .9)), effort(1000, c(4, 4, 9, 1), c(10, 0, 45, 45), c(.5, .9)))

# Sites: the first total at which so many people in clusters are worth what independent ones would be
sited <- function(t, k, icc, cv) {
  n <- k:2e6; worth <- n / (1 + ((cv^2 + 1) * n / k - 1) * icc)
  item(total = t, clusters = k, icc = number(icc), cv = number(cv), needed = number(n[which(worth >= t * (1 - 1e-12))[1]]))
}
clustered <- c(sited(80, 6, .02, 0), sited(400, 9, .02, 0), sited(400, 8, .02, 0), sited(300, 20, .05, .6), sited(150, 30, .1, .3))

cat("{\n", paste(block("precisions", precisions), block("enrolments", enrolments), block("efforts", efforts),
  block("clustered", clustered), sep = ",\n"), "\n}\n", sep = "")
