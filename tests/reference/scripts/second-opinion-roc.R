# Second opinions for tests/methods/roc/*.test.ts, by R base and stats only.
# Run: Rscript second-opinion-roc.R > ../second-opinion-roc.json
# Made with R 4.2.2. Areas by wilcox.test, placements person by person over every pair, parts of a curve by adding up
# approx() between its points, score limits by uniroot, two normal distributions by nlminb and optim with numeric
# slopes of the shares, cutoffs by trying every reading, bootstraps as the list of all resamples of tiny groups.

num <- function(x) ifelse(is.na(x), "null", sprintf("%.15g", as.numeric(x)))
arr <- function(x) paste0("[", paste(num(x), collapse = ", "), "]")
obj <- function(...) { p <- list(...); paste0("{", paste0('"', names(p), '": ', unlist(p), collapse = ", "), "}") }
str <- function(x) paste0('"', x, '"')
all_of <- function(items) paste0("[\n", paste(items, collapse = ",\n"), "\n]")

turned <- function(x, direction) if (direction == "higher") x else -x
kernel <- function(pos, neg) outer(pos, neg, function(a, b) (a > b) + .5 * (a == b))
placed <- function(pos, neg) { k <- kernel(pos, neg); list(mine = rowMeans(k), others = colMeans(k), area = mean(k)) }
points_of <- function(pos, neg) {
  cut <- sort(unique(c(pos, neg)), decreasing = TRUE)
  list(cut = cut, se = c(0, sapply(cut, function(c) mean(pos >= c))), fp = c(0, sapply(cut, function(c) mean(neg >= c))))
}
# area below the line through the points (x, y), x rising with repeats, within a range
strip <- function(x, y, from, to) {
  total <- 0
  for (i in seq_along(x)[-1]) {
    lo <- max(x[i - 1], from); hi <- min(x[i], to)
    if (hi > lo) { ends <- approx(x[c(i - 1, i)], y[c(i - 1, i)], c(lo, hi))$y; total <- total + (hi - lo) * mean(ends) }
  }
  total
}
part <- function(pos, neg, of, from, to) {
  p <- points_of(pos, neg)
  if (of == "specificity") strip(p$fp, p$se, 1 - to, 1 - from) else strip(p$se, 1 - p$fp, from, to)
}
score <- function(a, m, n, level) {
  z <- qnorm((1 + level) / 2); k <- (m + n) / 2 - 1
  v <- function(t) t * (1 - t) * (1 + k * ((1 - t) / (2 - t) + t / (1 + t))) / (m * n)
  root <- function(lo, hi) uniroot(function(t) (a - t)^2 - z^2 * v(t), c(lo, hi), tol = 1e-14)$root
  c(if (a == 0) 0 else root(1e-12, a - 1e-9), if (a == 1) 1 else root(a + 1e-9, 1 - 1e-12))
}

set.seed(20)
groups <- list(
  list(name = "eight and ten, ties", pos = c(2.1, 3.4, 1.8, 4.4, 5, 3.9, 2.7, 4.1), neg = c(1.2, 2.1, .8, 3.3, 1.8, 2.5, 1.1, 3.4, .9, 2.7), direction = "higher"),
  list(name = "whole numbers, many ties", pos = rbinom(60, 8, .6), neg = rbinom(80, 8, .35), direction = "higher"),
  list(name = "lower speaks for it", pos = round(rnorm(45, -1), 3), neg = round(rnorm(70), 3), direction = "lower"),
  list(name = "apart", pos = c(7, 8, 9, 9.5), neg = c(1, 2, 2, 3, 4), direction = "higher"),
  list(name = "worse than chance", pos = round(rnorm(30, -.4), 2), neg = round(rnorm(25), 2), direction = "higher"))
curve <- function(g) {
  pos <- turned(g$pos, g$direction); neg <- turned(g$neg, g$direction); m <- length(pos); n <- length(neg)
  w <- suppressWarnings(wilcox.test(pos, neg, exact = FALSE, correct = FALSE)); a <- unname(w$statistic) / (m * n)
  p <- placed(pos, neg); se <- sqrt(var(p$mine) / m + var(p$others) / n)
  s <- tryCatch(score(a, m, n, .95), error = function(e) c(uniroot(function(t) (a - t)^2 - qnorm(.975)^2 * t * (1 - t) * (1 + ((m + n) / 2 - 1) * ((1 - t) / (2 - t) + t / (1 + t))) / (m * n), c(1e-9, .999), tol = 1e-14)$root, 1))
  obj(name = str(g$name), positives = arr(g$pos), negatives = arr(g$neg), direction = str(g$direction),
      u = num(w$statistic), p = num(w$p.value), area = num(a), standardError = num(se), score = arr(s),
      highSpecificity = num(part(pos, neg, "specificity", .8, 1)), middle = num(part(pos, neg, "specificity", .33, .777)),
      highSensitivity = num(part(pos, neg, "sensitivity", .85, .99)),
      gap = num(suppressWarnings(ks.test(g$pos, g$neg))$statistic), quantiles = arr(quantile(g$pos, c(.05, .25, .5, .75, .95))),
      bars = arr(hist(g$neg, breaks = seq(min(c(g$pos, g$neg)), max(c(g$pos, g$neg)), length.out = 8), right = FALSE, include.lowest = TRUE, plot = FALSE)$counts))
}

pairs <- local({
  make <- function(n, shift, slope) { z <- rnorm(n); cbind(round(z + shift + rnorm(n, 0, .7), 1), round(slope * (z + shift) + rnorm(n), 1)) }
  list(list(name = "eighteen people", pos = cbind(groups[[1]]$pos, c(1.9, 2.2, 2.6, 3.1, 2.4, 4, 1.5, 2.9)), neg = cbind(groups[[1]]$neg, c(1.4, 2.5, 1.1, 2.2, 2, 1.7, .6, 3, 1.6, 2.1)), second = "higher"),
       list(name = "second turned round", pos = make(50, 1.5, -1), neg = make(70, 0, -1), second = "lower"))
})
compared <- function(g) {
  f1 <- g$pos[, 1]; f0 <- g$neg[, 1]; s1 <- turned(g$pos[, 2], g$second); s0 <- turned(g$neg[, 2], g$second)
  a <- placed(f1, f0); b <- placed(s1, s0); m <- length(f1); n <- length(f0)
  v <- cov(cbind(a$mine, b$mine)) / m + cov(cbind(a$others, b$others)) / n
  d <- a$area - b$area; sp <- sqrt(v[1, 1] + v[2, 2] - 2 * v[1, 2]); si <- sqrt(v[1, 1] + v[2, 2])
  obj(name = str(g$name), firstPositives = arr(f1), firstNegatives = arr(f0), secondPositives = arr(g$pos[, 2]), secondNegatives = arr(g$neg[, 2]),
      secondDirection = str(g$second), difference = num(d), covariance = num(v[1, 2]), correlation = num(v[1, 2] / sqrt(v[1, 1] * v[2, 2])),
      paired = arr(c(sp, d - qnorm(.975) * sp, d + qnorm(.975) * sp, d / sp, 2 * pnorm(-abs(d / sp)))),
      independent = arr(c(si, d - qnorm(.975) * si, d + qnorm(.975) * si, d / si, 2 * pnorm(-abs(d / si)))))
}

scales <- list(
  list(name = "109 images", neg = c(33, 6, 6, 11, 2), pos = c(3, 2, 2, 11, 33)),
  list(name = "absent, faint, clear", neg = c(180, 12, 3), pos = c(9, 21, 70)),
  list(name = "an empty category and an empty cell", neg = c(60, 20, 0, 9, 3, 0), pos = c(5, 8, 0, 14, 15, 10)),
  list(name = "wide with the condition", neg = c(40, 30, 20, 8, 2), pos = c(18, 9, 10, 12, 51)),
  list(name = "nothing told", neg = c(30, 28, 25, 19), pos = c(28, 31, 22, 21)))
fitted <- function(g) {
  keep <- g$neg + g$pos > 0; neg <- g$neg[keep]; pos <- g$pos[keep]; k <- length(neg)
  shares <- function(par) { t <- par[-(1:2)]; list(neg = diff(c(0, pnorm(t), 1)), pos = diff(c(0, pnorm(par[2] * t - par[1]), 1))) }
  loss <- function(par) { s <- shares(par); if (any(unlist(s) <= 0) || par[2] <= 0) return(1e10)
    -sum((neg * log(s$neg))[neg > 0]) - sum((pos * log(s$pos))[pos > 0]) }
  start <- c(1, 1, qnorm(cumsum(neg + .5)[-k] / sum(neg + .5)))
  fit <- nlminb(start, loss, control = list(rel.tol = 1e-15, x.tol = 1e-12, eval.max = 5000, iter.max = 5000))
  fit <- optim(fit$par, loss, method = "BFGS", control = list(reltol = 1e-16, maxit = 1000))
  fit <- nlminb(fit$par, loss, control = list(rel.tol = 1e-15, x.tol = 1e-13))
  par <- fit$par; h <- 1e-5
  slope <- function(which) sapply(seq_along(par), function(j) { e <- replace(0 * par, j, h); (shares(par + e)[[which]] - shares(par - e)[[which]]) / (2 * h) })
  s <- shares(par); info <- sum(neg) * t(slope("neg")) %*% (slope("neg") / s$neg) + sum(pos) * t(slope("pos")) %*% (slope("pos") / s$pos)
  v <- solve(info); a <- par[1]; b <- par[2]; r <- sqrt(1 + b^2)
  grad <- c(1 / r, -a * b / r^3); sd <- sqrt(drop(t(grad) %*% v[1:2, 1:2] %*% grad))
  ex <- c(s$neg * sum(neg), s$pos * sum(pos)); ob <- c(neg, pos); g2 <- 2 * sum((ob * log(ob / ex))[ob > 0])
  z <- qnorm(.1); at <- a + b * z; sa <- sqrt(v[1, 1] + 2 * z * v[1, 2] + z^2 * v[2, 2])
  obj(name = str(g$name), positives = arr(g$pos), negatives = arr(g$neg), logLikelihood = num(-fit$objective), a = arr(c(a, sqrt(v[1, 1]))), b = arr(c(b, sqrt(v[2, 2]))),
      covariance = num(v[1, 2]), area = arr(c(pnorm(a / r), pnorm(a / r - qnorm(.975) * sd), pnorm(a / r + qnorm(.975) * sd), dnorm(a / r) * sd)),
      borders = arr(par[-(1:2)]), borderErrors = arr(sqrt(diag(v))[-(1:2)]), deviance = num(g2), pearson = num(sum((ob - ex)^2 / ex)),
      p = num(if (k > 3) pchisq(g2, k - 3, lower.tail = FALSE) else NA), at90 = arr(pnorm(c(at, at - qnorm(.975) * sa, at + qnorm(.975) * sa))))
}

# every reading tried as a cutoff (and none); worth is compared to nine digits
worth <- function(se, sp, rule) switch(rule$kind, youden = se + sp - 1, cost = -(rule$prevalence * (1 - se) * rule$fn + (1 - rule$prevalence) * (1 - sp) * rule$fp),
  specificity_at_least = ifelse(sp >= rule$least - 1e-12, se, -Inf), sensitivity_at_least = ifelse(se >= rule$least - 1e-12, sp, -Inf))
choose <- function(pos, neg, rule) {
  cut <- c(Inf, sort(unique(c(pos, neg)), decreasing = TRUE))
  w <- round(worth(sapply(cut, function(c) mean(pos >= c)), sapply(cut, function(c) mean(neg < c)), rule), 9)
  best <- which(w == max(w)); cut[if (rule$kind == "sensitivity_at_least") max(best) else min(best)]
}
rules <- list(list(kind = "youden"), list(kind = "cost", prevalence = .1, fp = 1, fn = 20), list(kind = "specificity_at_least", least = .9), list(kind = "sensitivity_at_least", least = .9))
rule_text <- function(r) switch(r$kind, youden = '{"kind": "youden"}', cost = obj(kind = str("cost"), prevalence = num(r$prevalence), falsePositiveCost = num(r$fp), falseNegativeCost = num(r$fn)), obj(kind = str(r$kind), least = num(r$least)))
cutoffs <- unlist(lapply(groups[c(1, 2, 3)], function(g) lapply(rules, function(r) {
  pos <- turned(g$pos, g$direction); neg <- turned(g$neg, g$direction); c <- choose(pos, neg, r)
  obj(name = str(paste(g$name, r$kind)), positives = arr(g$pos), negatives = arr(g$neg), direction = str(g$direction), rule = rule_text(r),
      cutoff = num(if (is.finite(c)) turned(c, g$direction) else NA), sensitivity = num(mean(pos >= c)), specificity = num(mean(neg < c)))
})))

# tiny groups: every resample, and every way to leave one of each group out
tiny <- list(pos = c(2.1, 3.4, 1.9, 4), neg = c(1.2, 2.1, .8, 2.5))
ways <- as.matrix(expand.grid(rep(list(1:4), 4)))
ideal <- lapply(rules[c(1, 3)], function(r) {
  out <- matrix(0, nrow(ways)^2, 2); row <- 0
  for (i in seq_len(nrow(ways))) for (j in seq_len(nrow(ways))) {
    p <- tiny$pos[ways[i, ]]; n <- tiny$neg[ways[j, ]]; c <- choose(p, n, r); row <- row + 1
    out[row, ] <- c(mean(p >= c) - mean(tiny$pos >= c), mean(n < c) - mean(tiny$neg < c))
  }
  left <- matrix(0, 16, 2); row <- 0
  for (i in 1:4) for (j in 1:4) { c <- choose(tiny$pos[-i], tiny$neg[-j], r); row <- row + 1; left[row, ] <- c(tiny$pos[i] >= c, tiny$neg[j] < c) }
  obj(rule = rule_text(r), positives = arr(tiny$pos), negatives = arr(tiny$neg), optimism = arr(colMeans(out[, 1:2])), sd = arr(apply(out[, 1:2], 2, sd)),
      leftOut = arr(colMeans(left)))
})
k <- kernel(tiny$pos, tiny$neg)
areas <- numeric(nrow(ways)^2); row <- 0
for (i in seq_len(nrow(ways))) for (j in seq_len(nrow(ways))) { row <- row + 1; areas[row] <- mean(k[ways[i, ], ways[j, ]]) }
sd_of <- function(x) sqrt(mean((x - mean(x))^2))
ideal_area <- obj(positives = arr(tiny$pos), negatives = arr(tiny$neg), area = num(mean(k)), standardError = num(sd_of(areas)))

# the eye: 0/1 beside a reading; the points joined by straight lines, steps by their middle or their best end
eyes <- local({
  one <- function(name, pos, eye1, neg, eye0) list(name = name, pos = pos, eye1 = eye1, neg = neg, eye0 = eye0)
  a <- rnorm(40, 1.6); b <- rnorm(60)
  list(one("eight and ten", groups[[1]]$pos, c(0, 1, 0, 1, 1, 1, 0, 1), groups[[1]]$neg, c(0, 0, 0, 1, 0, 0, 0, 1, 0, 0)),
       one("continuous", round(a, 4), as.integer(a + rnorm(40, 0, .5) > 1), round(b, 4), as.integer(b + rnorm(60, 0, .5) > 1)),
       one("ties", round(a), as.integer(a + rnorm(40, 0, .5) > 1), round(b), as.integer(b + rnorm(60, 0, .5) > 1)))
})
eye <- function(g) {
  p <- points_of(g$pos, g$neg); x <- mean(g$eye0); y <- mean(g$eye1)
  at <- function(from, to, where, ties) approx(round(from, 12), to, round(where, 12), ties = ties)$y
  half <- function(v) mean(range(v))
  obj(name = str(g$name), positives = arr(g$pos), eyePositives = arr(g$eye1), negatives = arr(g$neg), eyeNegatives = arr(g$eye0),
      sensitivity = arr(c(at(p$fp, p$se, x, half), at(p$fp, p$se, x, max))), specificity = arr(c(at(p$se, 1 - p$fp, y, half), at(p$se, 1 - p$fp, y, max))))
}

cat(obj(curves = all_of(sapply(groups, curve)), compared = all_of(sapply(pairs, compared)), ordinal = all_of(sapply(scales, fitted)),
        cutoffs = all_of(cutoffs), ideal = all_of(ideal), idealArea = ideal_area, eyes = all_of(sapply(eyes, eye))), "\n")
