# Second opinions for tests/methods/planning/stopping-second-opinion.test.ts, by R base and stats only.
# Run (some minutes): Rscript second-opinion-planning-stopping.R > ../second-opinion-planning-stopping.json
# Made with R 4.2.2. Two stages: every first stage, both borders and every total tried, none passed over
# (dbinom, pbinom, sums over all first results). Spending: pnorm, qnorm, log. Group sequential: whole vectors
# of probabilities carried from look to look, every border tried, totals tried from the smallest on. One look:
# pbinom for every border. A probability just reached may differ by 1e-12 of itself.

number <- function(x) ifelse(is.na(x), "null", sprintf("%.17g", as.numeric(x)))
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")
within <- function(error, allowed) error <= allowed * (1 + 1e-12)
reaches <- function(power, wanted) power >= wanted * (1 - 1e-12)

# passing[r1 + 1, r + 1]: probability of more than r1 at first and more than r in all
passing <- function(n1, n2, p) {
  x <- 0:n1
  joint <- outer(x, 0:(n1 + n2 - 1), function(x, r) dbinom(x, n1, p) * pbinom(r - x, n2, p, lower.tail = FALSE))
  more <- apply(joint[nrow(joint):1, , drop = FALSE], 2, cumsum)
  more <- more[nrow(more):1, , drop = FALSE]
  more[-1, , drop = FALSE]
}
designs <- function(p0, p1, error, power, largest) {
  all <- NULL
  for (n in 2:largest) for (n1 in 1:(n - 1)) {
    size <- passing(n1, n - n1, p0)
    good <- passing(n1, n - n1, p1)
    fits <- which(within(size, error) & reaches(good, power), arr.ind = TRUE)
    if (nrow(fits) == 0) next
    r1 <- fits[, 1] - 1
    mean <- n1 + (n - n1) * pbinom(r1, n1, p0, lower.tail = FALSE)
    mean_good <- n1 + (n - n1) * pbinom(r1, n1, p1, lower.tail = FALSE)
    found <- data.frame(n1 = n1, r1 = r1, n = n, r = fits[, 2] - 1, mean = mean, mean_good = mean_good,
      early = pbinom(r1, n1, p0), error = size[fits], power = good[fits])
    all <- rbind(all, found[found$mean <= min(found$mean) * (1 + 1e-12), ])
  }
  all
}
pick <- function(d) {
  d <- d[d$mean <= min(d$mean) * (1 + 1e-12), ]
  d <- d[order(d$n, d$error), ]
  unlist(d[1, ])
}
one_look <- function(p0, p1, error, power, horizon) {
  for (n in 1:horizon) {
    size <- pbinom(0:n - 1, n, p0, lower.tail = FALSE)
    if (!any(within(size, error))) next
    from <- which(within(size, error))[1] - 1
    reached <- pbinom(from - 1, n, p1, lower.tail = FALSE)
    if (reaches(reached, power)) return(c(n, from, size[from + 1], reached))
  }
  rep(NA, 4)
}
asked <- list(c(.05, .25, .05, .2, 40), c(.1, .3, .05, .2, 60), c(.1, .3, .1, .1, 60), c(.2, .4, .05, .2, 70),
  c(.3, .5, .05, .1, 90), c(.9, .98, .05, .2, 100), c(.85, .95, .05, .2, 100), c(.8, .95, .025, .1, 80),
  c(.9, .99, .05, .1, 100), c(.5, .75, .05, .1, 60), c(.9, 1, .05, .2, 50), c(.9, .92, .05, .2, 60))
two_stage <- lapply(asked, function(a) {
  all <- designs(a[1], a[2], a[3], 1 - a[4], a[5])
  best <- if (is.null(all)) rep(NA, 9) else pick(all)
  least <- if (is.null(all)) rep(NA, 9) else pick(all[all$n == min(all$n), ])
  item(unacceptable = number(a[1]), expected = number(a[2]), error = number(a[3]), power = number(1 - a[4]),
    largest = a[5], smallestExpected = list_of(best), minimax = list_of(least),
    single = list_of(one_look(a[1], a[2], a[3], 1 - a[4], 2000)))
})

spend <- function(t, error, how) {
  if (how == "pocock") error * log(1 + (exp(1) - 1) * t) else 2 - 2 * pnorm(qnorm(1 - error / 2) / sqrt(t))
}
spendings <- unlist(lapply(c("obrien_fleming", "pocock"), function(how) lapply(c(.01, .025, .05, .2), function(error) {
  t <- c(.2, .25, .4, .5, .75, .9, 1)
  item(spending = paste0('"', how, '"'), error = number(error), shares = list_of(t), spent = list_of(spend(t, error, how)))
})))

further <- function(alive, more, p) {
  n <- length(alive) - 1
  out <- numeric(n + more + 1)
  for (x in 0:n) out[x + 1:(more + 1)] <- out[x + 1:(more + 1)] + alive[x + 1] * dbinom(0:more, more, p)
  out
}
follow <- function(looks, p) {
  alive <- 1; seen <- 0; pass <- fail <- NULL
  for (k in seq_len(nrow(looks))) {
    n <- looks$total[k]
    alive <- further(alive, n - seen, p)
    x <- 0:n
    up <- !is.na(looks$pass[k]) & x >= looks$pass[k]
    down <- !is.na(looks$fail[k]) & x <= looks$fail[k]
    pass <- c(pass, sum(alive[up])); fail <- c(fail, sum(alive[down]))
    alive[up | down] <- 0
    seen <- n
  }
  list(pass = pass, fail = fail)
}
plan <- function(N, fractions, p0, p1, error, power, how, failure) {
  totals <- ceiling(fractions * N - 1e-9)
  if (any(diff(totals) <= 0)) return(NULL)
  looks <- data.frame(total = totals, pass = NA, fail = NA)
  spent <- numeric(length(totals))
  for (k in seq_along(totals)) {
    n <- totals[k]
    for (border in (n + 1):0) {                      # from the strictest border down
      tried <- looks[1:k, ]; tried$fail <- NA; tried$pass[k] <- border
      used <- sum(follow(tried, p0)$pass)
      if (!within(used, spend(n / N, error, how))) break
      looks$pass[k] <- if (border <= n) border else NA
      spent[k] <- used
    }
    if (k == length(totals)) {
      if (is.na(looks$pass[k])) return(NULL)
      looks$fail[k] <- looks$pass[k] - 1
    } else if (failure) {
      top <- if (is.na(looks$pass[k])) n - 1 else looks$pass[k] - 2
      for (border in seq_len(top + 1) - 1) {
        tried <- looks[1:k, ]; tried$fail[k] <- border
        if (!within(sum(follow(tried, p1)$fail), spend(n / N, 1 - power, how))) break
        looks$fail[k] <- border
      }
    }
  }
  list(looks = looks, spent = spent, bad = follow(looks, p0), good = follow(looks, p1))
}
smallest <- function(fractions, p0, p1, error, power, how, failure) {
  for (N in 1:400) {
    found <- plan(N, fractions, p0, p1, error, power, how, failure)
    if (!is.null(found) && reaches(sum(found$good$pass), power)) return(found)
  }
}
sequential <- lapply(list(
  list(c(.5, 1), .9, .97, .05, .8, "obrien_fleming", FALSE), list(c(.5, 1), .9, .97, .05, .8, "pocock", TRUE),
  list(c(1 / 3, 2 / 3, 1), .8, .92, .025, .9, "obrien_fleming", TRUE), list(c(.25, .5, .75, 1), .5, .7, .05, .8, "pocock", FALSE),
  list(c(.2, .5, 1), .3, .55, .05, .8, "obrien_fleming", TRUE), list(1, .9, .97, .05, .8, "obrien_fleming", FALSE),
  list(c(.5, 1), .95, .99, .05, .8, "obrien_fleming", TRUE)), function(a) {
  found <- do.call(smallest, a)
  looks <- found$looks
  item(fractions = list_of(a[[1]]), unacceptable = number(a[[2]]), expected = number(a[[3]]), error = number(a[[4]]),
    power = number(a[[5]]), spending = paste0('"', a[[6]], '"'), failure = if (a[[7]]) "true" else "false",
    totals = list_of(looks$total), passFrom = list_of(looks$pass), failAt = list_of(looks$fail),
    errorSpent = list_of(found$spent), passIfExpected = list_of(cumsum(found$good$pass)),
    stopIfUnacceptable = list_of(cumsum(found$bad$pass + found$bad$fail)),
    finalError = number(sum(found$bad$pass)), finalPower = number(sum(found$good$pass)),
    meanUnacceptable = number(sum(looks$total * (found$bad$pass + found$bad$fail))),
    meanExpected = number(sum(looks$total * (found$good$pass + found$good$fail))))
})

rules <- lapply(list(
  list(data.frame(total = c(10, 29), pass = c(NA, 6), fail = c(1, 5)), c(.1, .3, 1)),
  list(data.frame(total = c(30, 59, 89, 118), pass = c(NA, 59, 86, 112), fail = c(25, 53, 82, 111)), c(.85, .9, .96)),
  list(data.frame(total = c(50, 200, 600), pass = c(50, 195, 575), fail = c(NA, 175, 574)), c(0, .93, .97))), function(a) {
  ways <- lapply(a[[2]], function(p) follow(a[[1]], p))
  item(total = list_of(a[[1]]$total), passFrom = list_of(a[[1]]$pass), failAt = list_of(a[[1]]$fail), truths = list_of(a[[2]]),
    pass = list_of(sapply(ways, function(w) sum(w$pass))), fail = list_of(sapply(ways, function(w) sum(w$fail))),
    mean = list_of(sapply(ways, function(w) sum(a[[1]]$total * (w$pass + w$fail)))))
})

cat("{\n", paste(block("twoStage", two_stage), block("spending", spendings), block("sequential", sequential),
  block("rules", rules), sep = ",\n"), "\n}\n", sep = "")
