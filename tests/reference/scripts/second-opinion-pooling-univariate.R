# Second opinions for tests/methods/pooling/univariate-second-opinion.test.ts and the lines' tests, by R base and stats.
# Run (about a minute): Rscript second-opinion-pooling-univariate.R > ../second-opinion-pooling-univariate.json
# Made with R 4.2.2. Random intercept: each study integrated by integrate() over z, maximum by optim (BFGS), errors by
# optimHess, profile limits by uniroot over optimize; Laplace's approximation by lme4 1.1-31 (glmer, nAGQ = 1), and its
# nAGQ = 25. Effects: DerSimonian-Laird by its formula, Paule-Mandel and the limits of tau by uniroot, ML and REML by
# optimize over tau on the likelihood written out by dnorm (REML: plus log sum of weights). Lines by lm(weights =).
# Rank correlation: cor(method = "spearman"), p over every order by recursion, or cor.test(exact = FALSE).

suppressMessages(library(lme4))
number <- function(x) ifelse(is.na(x), "null", sprintf("%.15g", as.numeric(x)))
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")

# ---- random intercept
one_log <- function(y, n, mean, sd) {
  g <- function(z) y * plogis(mean + sd * z, log.p = TRUE) + (n - y) * plogis(mean + sd * z, lower.tail = FALSE, log.p = TRUE) +
    dnorm(z, log = TRUE)
  top <- optimize(g, c(-12, 12), maximum = TRUE, tol = 1e-9)
  f <- function(z) exp(g(z) - top$objective)
  parts <- integrate(f, top$maximum - 12, top$maximum, rel.tol = 1e-11, subdivisions = 2000)$value +
    integrate(f, top$maximum, top$maximum + 12, rel.tol = 1e-11, subdivisions = 2000)$value
  lchoose(n, y) + top$objective + log(parts)
}
loglik <- function(y, n, mean, sd) sum(mapply(one_log, y, n, MoreArgs = list(mean = mean, sd = sd)))
intercept_case <- function(y, n) {
  fit <- optim(c(qlogis(sum(y) / sum(n)), .5), function(p) -loglik(y, n, p[1], abs(p[2])), method = "BFGS",
    control = list(reltol = 1e-14, ndeps = c(1e-4, 1e-4), maxit = 500))
  fit <- optim(c(fit$par[1], abs(fit$par[2])), function(p) -loglik(y, n, p[1], abs(p[2])), method = "Nelder-Mead",
    control = list(reltol = 1e-15, maxit = 2000))
  mean <- fit$par[1]; sd <- abs(fit$par[2]); best <- -fit$value
  h <- optimHess(c(mean, sd), function(p) -loglik(y, n, p[1], abs(p[2])), control = list(ndeps = c(1e-3, 1e-3)))
  se <- sqrt(solve(h)[1, 1])
  floor <- best - qchisq(.95, 1) / 2
  over_sd <- function(m) optimize(function(s) loglik(y, n, m, s), c(0, 4), maximum = TRUE, tol = 1e-7)$objective - floor
  over_mean <- function(s) optimize(function(m) loglik(y, n, m, s), mean + c(-3, 3), maximum = TRUE, tol = 1e-7)$objective - floor
  low_sd <- if (over_mean(0) >= 0) 0 else uniroot(over_mean, c(0, sd), tol = 1e-8)$root
  group <- factor(seq_along(y))
  laplace <- glmer(cbind(y, n - y) ~ 1 + (1 | group), family = binomial, nAGQ = 1, control = glmerControl(tolPwrss = 1e-13))
  agq <- suppressWarnings(glmer(cbind(y, n - y) ~ 1 + (1 | group), family = binomial, nAGQ = 25, control = glmerControl(tolPwrss = 1e-13)))
  average <- integrate(function(z) plogis(mean + sd * z) * dnorm(z), -12, 12, rel.tol = 1e-12)$value
  item(count = list_of(y), total = list_of(n), mean = number(mean), sd = number(sd), error = number(se), logLikelihood = number(best),
    meanLimits = list_of(c(uniroot(over_sd, c(mean - 4 * se, mean), tol = 1e-9)$root, uniroot(over_sd, c(mean, mean + 5 * se), tol = 1e-9)$root)),
    sdLimits = list_of(c(low_sd, uniroot(over_mean, c(sd, sd + 3), tol = 1e-9)$root)), average = number(average),
    laplace = list_of(c(fixef(laplace), sqrt(unlist(VarCorr(laplace))), as.numeric(logLik(laplace)))),
    agq = list_of(c(fixef(agq), sqrt(unlist(VarCorr(agq))))), likeliest = list_of(coef(agq)$group[, 1]))
}
intercepts <- list(
  list(c(45, 62, 28, 90, 33, 71, 54, 19, 120, 40, 66, 85), c(50, 76, 37, 96, 44, 79, 74, 21, 138, 50, 73, 110)),
  list(c(25, 17, 12, 30, 9, 40), c(25, 19, 12, 33, 14, 41)),
  list(c(0, 1, 0, 4, 0, 2, 0, 0, 9, 1), c(40, 55, 31, 60, 22, 48, 70, 35, 80, 66)),
  list(c(3, 9, 14, 2, 18), c(20, 20, 20, 20, 20)))
intercept <- unlist(lapply(intercepts, function(s) intercept_case(s[[1]], s[[2]])))

# ---- effects with errors
between <- function(y, v) {
  at <- function(t2) { w <- 1 / (v + t2); m <- sum(w * y) / sum(w); list(w = w, m = m, q = sum(w * (y - m)^2)) }
  k <- length(y); f <- at(0)
  dl <- max(0, (f$q - (k - 1)) / (sum(f$w) - sum(f$w^2) / sum(f$w)))
  solve_q <- function(target) if (f$q <= target) 0 else uniroot(function(t2) at(t2)$q - target, c(0, 1e4), tol = 1e-14)$root
  like <- function(tau, restricted) {
    a <- at(tau^2)
    sum(dnorm(y, a$m, sqrt(v + tau^2), log = TRUE)) - (if (restricted) log(sum(a$w)) / 2 else 0)
  }
  best <- function(restricted) {
    grid <- seq(0, 3 * diff(range(y)), length.out = 4001); value <- sapply(grid, like, restricted = restricted)
    i <- which.max(value); if (i == 1) return(0)
    optimize(like, grid[c(i - 1, i + 1)], restricted = restricted, maximum = TRUE, tol = 1e-12)$maximum^2
  }
  model <- function(t2) {
    a <- at(t2); se <- 1 / sqrt(sum(a$w)); hk <- se * sqrt(a$q / (k - 1)); c(t2, a$m, se, hk,
      a$m + c(-1, 1) * qt(.975, k - 1) * hk, a$m + c(-1, 1) * qt(.975, k - 2) * sqrt(t2 + se^2)) }
  item(effects = list_of(y), errors = list_of(sqrt(v)), q = number(f$q), p = number(pchisq(f$q, k - 1, lower.tail = FALSE)),
    dersimonianLaird = list_of(model(dl)), pauleMandel = list_of(model(solve_q(k - 1))), ml = list_of(model(best(FALSE))),
    reml = list_of(model(best(TRUE))), sdLimits = list_of(sqrt(c(solve_q(qchisq(.975, k - 1)), solve_q(qchisq(.025, k - 1))))))
}
set.seed(20261)
effects <- c(
  between(c(28, 8, -3, 7, -1, 1, 18, 12), c(15, 10, 16, 11, 9, 11, 10, 18)^2),
  between(c(.2, .9, .35, 1.6, -.1, .7), c(.2, .3, .15, .4, .25, .2)^2),
  between(c(2.1, 3.4, 1.2, 2.9, 4.8, 3.1, 2.2, .4, 3.7, 2.6, 5.2, 1.9), runif(12, .1, .9)^2),
  between(c(10, 10.4, 9.1), c(.3, .2, .5)^2))

# ---- lines
tables <- list(
  list(tp = c(25, 17, 88, 16, 40, 38, 23, 27, 14, 37), fn = c(8, 4, 16, 10, 17, 9, 19, 6, 7, 7),
    fp = c(1, 3, 16, 3, 1, 6, 0, 2, 3, 22), tn = c(25, 11, 31, 80, 137, 24, 12, 18, 29, 7)),
  list(tp = c(45, 62, 28, 90, 33, 71, 54), fn = c(5, 14, 9, 6, 11, 8, 20), fp = c(6, 3, 12, 9, 2, 15, 4),
    tn = c(94, 137, 88, 211, 98, 165, 146)),
  list(tp = c(12, 30, 9, 41, 15), fn = c(0, 3, 1, 2, 4), fp = c(2, 2, 0, 5, 1), tn = c(40, 61, 22, 95, 33)))
orders_p <- function(a, b) {
  r <- rank(a) - mean(rank(a)); s <- rank(b) - mean(rank(b)); far <- abs(sum(r * s)) - 1e-9; hit <- 0; all <- 0
  visit <- function(left, i, total) {
    if (i > length(r)) { all <<- all + 1; if (abs(total) >= far) hit <<- hit + 1; return(invisible()) }
    for (j in seq_along(left)) visit(left[-j], i + 1, total + r[i] * left[j])
  }
  visit(s, 1, 0); hit / all
}
lines <- unlist(lapply(tables, function(t) {
  any_zero <- with(t, tp * fn * fp * tn == 0)
  unlist(lapply(c("all", "zero_cells"), function(how) {
    add <- if (how == "all") .5 else ifelse(any_zero, .5, 0)
    tp <- t$tp + add; fn <- t$fn + add; fp <- t$fp + add; tn <- t$tn + add
    D <- log(tp * tn / (fp * fn)); S <- log(tp * fp / (fn * tn)); v <- 1 / tp + 1 / fn + 1 / fp + 1 / tn
    tpr <- tp / (tp + fn); fpr <- fp / (fp + tn); k <- length(tp)
    ess <- with(t, 4 * (tp + fn) * (fp + tn) / (tp + fn + fp + tn))
    told <- function(m) { s <- summary(m); list_of(c(coef(s)[, 1], coef(s)[, 2], coef(s)[2, 4], s$sigma, s$r.squared, confint(m)[2, ])) }
    rate <- seq(min(fpr), max(fpr), length.out = 51)[18]; a <- unname(coef(lm(D ~ S)))
    # The curve by its definition: the sensitivity at which D and S lie on the line.
    height <- uniroot(function(l) (l - qlogis(rate)) - a[1] - a[2] * (l + qlogis(rate)), c(-30, 30), tol = 1e-13)$root
    x <- 1 / sqrt(ess); funnel <- lm(D ~ x, weights = ess)
    at <- predict(funnel, data.frame(x = max(x)), interval = "confidence")
    item(tp = list_of(t$tp), fn = list_of(t$fn), fp = list_of(t$fp), tn = list_of(t$tn), how = sprintf('"%s"', how),
      equal = told(lm(D ~ S)), inverse = told(lm(D ~ S, weights = 1 / v)), curve = list_of(c(rate, plogis(height))),
      spearman = number(cor(tpr, fpr, method = "spearman")),
      p = number(if (k <= 9) orders_p(tpr, fpr) else suppressWarnings(cor.test(tpr, fpr, method = "spearman", exact = FALSE)$p.value)),
      funnel = told(funnel), funnelEnd = list_of(at))
  }))
}))
cat("{\n", paste(c(block("intercept", intercept), block("effects", effects), block("lines", lines)), collapse = ",\n"), "\n}\n", sep = "")
