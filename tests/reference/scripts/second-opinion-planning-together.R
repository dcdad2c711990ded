# Second opinions for tests/methods/planning/together-second-opinion.test.ts, by R base and stats only.
# Run: Rscript second-opinion-planning-together.R > ../second-opinion-planning-together.json
# Made with R 4.2.2. The fewest in favour by trying every count with its own interval (qbeta for the exact one,
# prop.test without correction for Wilson's). The shared people: every table of four cells from the multinomial
# distribution (lgamma, log), nothing left out; the others from pbinom. Sizes: pbinom at every total up to the horizon.

number <- function(x) sprintf("%.17g", as.numeric(x))
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")

lower <- list(
  clopper_pearson = function(k, n) ifelse(k == 0, 0, qbeta(.025, k, n - k + 1)),
  wilson = function(k, n) sapply(k, function(i) suppressWarnings(prop.test(i, n, correct = FALSE)$conf.int[1])))
upper <- list(
  clopper_pearson = function(k, n) ifelse(k == n, 1, qbeta(.975, k + 1, n - k)),
  wilson = function(k, n) sapply(k, function(i) suppressWarnings(prop.test(i, n, correct = FALSE)$conf.int[2])))
# Fewest in favour, total + 1 where none will do.
needed <- function(n, threshold, side, method) {
  k <- 0:n
  met <- if (side == "at_least") lower[[method]](k, n) >= threshold else upper[[method]](n - k, n) <= threshold
  if (any(met)) min(k[met]) else n + 1
}

# P(i of the shared speak for the first and j for the second), by adding up over the people who speak for both.
shared_table <- function(m, p11, p10, p01, p00) {
  log_of <- function(times, p) ifelse(times == 0, 0, times * log(p))
  cells <- outer(0:m, 0:m, Vectorize(function(i, j) {
    both <- max(0, i + j - m):min(i, j)
    ways <- lgamma(m + 1) - lgamma(both + 1) - lgamma(i - both + 1) - lgamma(j - both + 1) - lgamma(m - i - j + both + 1)
    sum(exp(ways + log_of(both, p11) + log_of(i - both, p10) + log_of(j - both, p01) + log_of(m - i - j + both, p00)))
  }))
  stopifnot(abs(sum(cells) - 1) < 1e-9)
  cells
}
both_met <- function(n1, n2, m, p, q, need1, need2, both) {
  cells <- shared_table(m, both, max(0, p - both), max(0, q - both), max(0, 1 - p - q + both))
  rest1 <- pbinom(need1 - (0:m) - 1, n1 - m, p, lower.tail = FALSE)
  rest2 <- pbinom(need2 - (0:m) - 1, n2 - m, q, lower.tail = FALSE)
  sum(cells * outer(rest1, rest2))
}

# label: expected, threshold, side and total of each, shared, correlation, interval
asked <- list(
  list(.98, .90, "at_least", 60, .97, .90, "at_least", 75, 40, .3, "clopper_pearson"),
  list(.98, .90, "at_least", 60, .97, .90, "at_least", 75, 40, .3, "wilson"),
  list(.99, .95, "at_least", 150, .98, .93, "at_least", 110, 110, .5, "clopper_pearson"),
  list(.95, .85, "at_least", 80, .02, .10, "at_most", 90, 70, .2, "clopper_pearson"),
  list(.70, .55, "at_least", 50, .60, .45, "at_least", 50, 50, -.4, "wilson"),
  list(.70, .55, "at_least", 50, .60, .45, "at_least", 60, 1, .6, "wilson"))
powers <- lapply(asked, function(a) {
  p <- if (a[[3]] == "at_least") a[[1]] else 1 - a[[1]]
  q <- if (a[[7]] == "at_least") a[[5]] else 1 - a[[5]]
  need1 <- needed(a[[4]], a[[2]], a[[3]], a[[11]]); need2 <- needed(a[[8]], a[[6]], a[[7]], a[[11]])
  met <- function(both) both_met(a[[4]], a[[8]], a[[9]], p, q, need1, need2, both)
  item(expected = list_of(c(a[[1]], a[[5]])), threshold = list_of(c(a[[2]], a[[6]])),
    direction = sprintf('["%s", "%s"]', a[[3]], a[[7]]), total = list_of(c(a[[4]], a[[8]])), shared = a[[9]],
    correlation = number(a[[10]]), method = sprintf('"%s"', a[[11]]),
    each = list_of(c(pbinom(need1 - 1, a[[4]], p, lower.tail = FALSE), pbinom(need2 - 1, a[[8]], q, lower.tail = FALSE))),
    stated = number(met(p * q + a[[10]] * sqrt(p * (1 - p) * q * (1 - q)))), independent = number(met(p * q)),
    lowest = number(met(max(0, p + q - 1))), highest = number(met(min(p, q))))
})

# The total from which on the power stays reached, up to the horizon, with the power there and one before.
stays <- function(expected, threshold, side, power, horizon, method) {
  p <- if (side == "at_least") expected else 1 - expected
  at <- sapply(1:horizon, function(n) pbinom(needed(n, threshold, side, method) - 1, n, p, lower.tail = FALSE))
  n <- max(which(at < power)) + 1
  c(n, needed(n, threshold, side, method), at[n], at[n - 1])
}
plans <- list(
  list(c(.99, .97), c(.95, .90), c("at_least", "at_least"), .8, 500, "clopper_pearson"),
  list(c(.99, .98, .01), c(.95, .93, .05), c("at_least", "at_least", "at_most"), .9, 700, "clopper_pearson"),
  list(c(.95, .9), c(.85, .8), c("at_least", "at_least"), .5, 400, "wilson"),
  list(c(.95, .04, .9, .97), c(.85, .12, .8, .9), c("at_least", "at_most", "at_least", "at_least"), .3, 400, "clopper_pearson"))
sizes <- lapply(plans, function(a) {
  k <- length(a[[1]])
  found <- function(each) sapply(1:k, function(i) stays(a[[1]][i], a[[2]][i], a[[3]][i], each, a[[5]], a[[6]]))
  alone <- a[[4]]^(1 / k); safe <- 1 - (1 - a[[4]]) / k
  free <- found(alone); bound <- found(safe)
  item(expected = list_of(a[[1]]), threshold = list_of(a[[2]]),
    direction = sprintf("[%s]", paste(sprintf('"%s"', a[[3]]), collapse = ", ")), power = number(a[[4]]), horizon = a[[5]],
    method = sprintf('"%s"', a[[6]]), eachPower = list_of(c(alone, safe)),
    independent = sprintf("[%s]", paste(apply(free, 2, list_of), collapse = ", ")), guaranteed = sprintf("[%s]", paste(apply(bound, 2, list_of), collapse = ", ")),
    together = list_of(c(prod(free[3, ]), 1 - sum(1 - bound[3, ]))))
})

# Sizes over a grid; enrolled for them: those needed and the others who come before the last of them (qnbinom).
tables <- lapply(list(list(c(.99, .98), c(.95, .9), c(.02, .3), "at_least", "positives", .9, .95, 800, "wilson"),
  list(c(.01, .02), c(.05, .1), c(.02, .3), "at_most", "negatives", .95, .8, 800, "clopper_pearson")), function(a) {
  cells <- expand.grid(threshold = a[[2]], expected = a[[1]])
  found <- mapply(function(expected, threshold) {
    size <- stays(expected, threshold, a[[4]], .8, a[[8]], a[[9]])[1]
    share <- (if (a[[5]] == "positives") a[[3]] else 1 - a[[3]]) * a[[7]]
    list_of(c(size, ceiling(size / share), size + qnbinom(a[[6]], size, share)))
  }, cells$expected, cells$threshold)
  item(expected = list_of(a[[1]]), thresholds = list_of(a[[2]]), prevalences = list_of(a[[3]]),
    direction = sprintf('"%s"', a[[4]]), of = sprintf('"%s"', a[[5]]), assurance = number(a[[6]]), usable = number(a[[7]]),
    horizon = a[[8]], method = sprintf('"%s"', a[[9]]), cells = sprintf("[%s]", paste(found, collapse = ", ")))
})

cat("{\n", paste(block("powers", powers), block("sizes", sizes), block("tables", tables), sep = ",\n"), "\n}\n", sep = "")
