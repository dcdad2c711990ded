# Second opinions for tests/methods/planning/second-opinion-criterion.test.ts, by R base and stats only.
# Run: Rscript second-opinion-planning-criterion.R > ../second-opinion-planning-criterion.json
# Made with R 4.2.2. Every total up to the horizon, every result of it: the limits of the interval (qbeta for the
# exact and the Jeffreys one, the formula for Wilson's and for Agresti and Coull's; for mid-p the tail at the
# threshold itself), the verdict on them, and the sum of dbinom over the results that meet the criterion.
# Finding at least one: dhyper and dbinom over every total. Nothing seen: binom.test.

number <- function(x) ifelse(is.na(x), "null", sprintf("%.17g", as.numeric(x)))
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")
quoted <- function(x) paste0('"', x, '"')

lower_of <- list(
  clopper_pearson = function(k, n, out) ifelse(k == 0, 0, qbeta(out, k, n - k + 1)),
  jeffreys = function(k, n, out) ifelse(k == 0, 0, qbeta(out, k + .5, n - k + .5)),
  wilson = function(k, n, out) {
    z <- qnorm(1 - out); p <- k / n
    (p + z^2 / (2 * n) - z * sqrt(p * (1 - p) / n + z^2 / (4 * n^2))) / (1 + z^2 / n)
  },
  agresti_coull = function(k, n, out) {
    z <- qnorm(1 - out); m <- n + z^2; p <- (k + z^2 / 2) / m
    p - z * sqrt(p * (1 - p) / m)
  })
# Which results meet it, and which rule it out: limits of the events, upper ones as those of the others.
verdicts <- function(n, method, out, c, at_least) {
  k <- 0:n
  if (method == "mid_p") {
    above <- pbinom(k, n, c, lower.tail = FALSE) + dbinom(k, n, c) / 2
    below <- pbinom(k - 1, n, c) + dbinom(k, n, c) / 2
    if (at_least) return(list(met = above <= out, not = below < out))
    return(list(met = below <= out, not = above < out))
  }
  low <- lower_of[[method]](k, n, out); high <- 1 - lower_of[[method]](n - k, n, out)
  if (at_least) list(met = low >= c, not = high < c) else list(met = high <= c, not = low > c)
}
outside <- function(level, sides) if (sides == "one") 1 - level else (1 - level) / 2
favour <- function(n, at_least) if (at_least) 0:n else n - 0:n
at_total <- function(n, a) {
  met <- verdicts(n, a$method, outside(a$level, a$sides), a$threshold, a$at_least)$met
  c(needed = if (any(met)) min(favour(n, a$at_least)[met]) else NA, power = sum(dbinom(0:n, n, a$expected)[met]))
}
named <- function(a) list(expected = number(a$expected), threshold = number(a$threshold),
  direction = quoted(if (a$at_least) "at_least" else "at_most"), method = quoted(a$method), level = number(a$level),
  sides = quoted(a$sides))
sized <- function(a) {
  curve <- sapply(seq_len(a$horizon), at_total, a = a)
  reached <- curve["power", ] >= a$power * (1 - 1e-12)
  first <- which(reached)[1]; stays <- max(c(0, which(!reached))) + 1
  before <- function(n) if (n == 1) 0 else curve["power", n - 1]
  flawless <- sapply(seq_len(a$horizon), function(n) {
    met <- verdicts(n, a$method, outside(a$level, a$sides), a$threshold, a$at_least)$met
    met[if (a$at_least) n + 1 else 1]
  })
  do.call(item, c(named(a), list(power = number(a$power), horizon = a$horizon, first = first, firstNeeded = curve["needed", first],
    firstPower = number(curve["power", first]), firstBefore = number(before(first)), stays = stays,
    staysNeeded = curve["needed", stays], staysPower = number(curve["power", stays]),
    staysBefore = number(before(stays)), fewest = which(flawless)[1])))
}
ask <- function(expected, threshold, at_least, method, level = .95, sides = "two", power = .8, horizon = 600)
  list(expected = expected, threshold = threshold, at_least = at_least, method = method, level = level, sides = sides,
    power = power, horizon = horizon)
questions <- c(
  lapply(c("clopper_pearson", "wilson", "mid_p", "jeffreys", "agresti_coull"), function(m) ask(.98, .95, TRUE, m)),
  lapply(c("clopper_pearson", "wilson", "mid_p", "jeffreys"), function(m) ask(.02, .06, FALSE, m, power = .9)),
  list(ask(.7, .5, TRUE, "clopper_pearson", .99, power = .95), ask(.7, .5, TRUE, "wilson", .9, "one"),
    ask(.99, .95, TRUE, "clopper_pearson", .95, "one", .95), ask(.3, .45, FALSE, "mid_p", .95, "one"),
    ask(1, .97, TRUE, "clopper_pearson", .95), ask(0, .02, FALSE, "wilson", .95)))
sizes <- lapply(questions, sized)

powered <- function(a) {
  v <- verdicts(a$total, a$method, outside(a$level, a$sides), a$threshold, a$at_least)
  k <- 0:a$total; f <- favour(a$total, a$at_least)
  chance <- function(which, truth) number(sum(dbinom(k, a$total, truth)[which]))
  do.call(item, c(named(a), list(total = a$total, needed = number(if (any(v$met)) min(f[v$met]) else NA),
    ruledOut = number(if (any(v$not)) max(f[v$not]) else NA), met = chance(v$met, a$expected),
    notMet = chance(v$not, a$expected), atThreshold = chance(v$met, a$threshold),
    notMetAtThreshold = chance(v$not, a$threshold))))
}
totals <- list(list(.95, .85, TRUE, 100), list(.99, .95, TRUE, 20), list(.985, .98, TRUE, 2000), list(.03, .05, FALSE, 400),
  list(.6, .4, TRUE, 7), list(.1, .3, FALSE, 33))
powers <- unlist(lapply(totals, function(t) lapply(c("clopper_pearson", "wilson", "mid_p", "jeffreys"), function(m)
  powered(c(ask(t[[1]], t[[2]], t[[3]], m), list(total = t[[4]]))))), recursive = FALSE)

found <- lapply(list(c(.01, 1000, .95), c(.05, 40, .95), c(.02, 500, .99), c(.1, 12, .9), c(.5, 3, .8), c(.001, 200, .95),
  c(.013, NA, .95), c(.2, NA, .999), c(.0001, NA, .9)), function(a) {
  n <- 1:(if (is.na(a[2])) 40000 else a[2])
  affected <- if (is.na(a[2])) NA else ceiling(round(a[1] * a[2], 9))
  chance <- 1 - if (is.na(a[2])) dbinom(0, n, a[1]) else dhyper(0, affected, a[2] - affected, n)
  total <- which(chance >= a[3] * (1 - 1e-12))[1]
  item(prevalence = number(a[1]), population = number(a[2]), assurance = number(a[3]), affected = number(affected),
    total = total, probability = number(chance[total]))
})
unseen <- unlist(lapply(c(1, 2, 5, 47, 2000), function(n) lapply(c(.8, .95, .99), function(level)
  item(total = n, level = number(level),
    exactOneSided = number(binom.test(0, n, alternative = "less", conf.level = level)$conf.int[2]),
    exactTwoSided = number(binom.test(0, n, conf.level = level)$conf.int[2])))), recursive = FALSE)

cat("{\n", paste(block("sizes", sizes), block("powers", powers), block("found", found), block("unseen", unseen), sep = ",\n"),
  "\n}\n", sep = "")
