# Second opinions for tests/methods/reference/latent-second-opinion.test.ts, by R base and stats only.
# Run: Rscript second-opinion-latent.R > ../second-opinion-latent.json
# Made with R 4.2.2. People are drawn one by one from stated models (set.seed), tests struck out at random where the
# case says so. Likelihood by pattern, summed over what a missing test could have shown; pairs by their covariance
# as a share of its bounds, the random effect by the trapezoidal rule (301 points from -9 to 9). Maximum by nlminb from many starts, then optim (BFGS);
# standard errors by optimHess; profile limits by uniroot over nlminb of the other unknowns.

number <- function(x) ifelse(is.na(x), "null", sprintf("%.12g", as.numeric(x)))
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
expit <- plogis

draw <- function(model, people, prevalence, missing) {
  tests <- length(model$se)
  rows <- do.call(rbind, lapply(seq_along(people), function(g) {
    t(replicate(people[g], {
      d <- runif(1) < prevalence[g]; p <- if (d) model$se else 1 - model$sp
      x <- if (!is.null(model$rho)) {
        r <- model$rho[if (d) 1 else 2]; z <- rnorm(1)
        as.integer(runif(tests) < pnorm((qnorm(p) + sqrt(r) * z) / sqrt(1 - r)))
      } else {
        x <- as.integer(runif(tests) < p)
        share <- if (is.null(model$copy)) 0 else model$copy[if (d) 1 else 2]
        if (runif(1) < share) { u <- runif(1); x[1:2] <- as.integer(u < p[1:2]) }
        x
      }
      if (missing > 0) { gone <- runif(tests) < missing; if (all(gone)) gone[1] <- FALSE; x[gone] <- NA }
      c(g, x)
    }))
  }))
  key <- apply(rows, 1, paste, collapse = ",")
  list(rows = rows[!duplicated(key), , drop = FALSE], n = as.vector(table(key)[key[!duplicated(key)]]))
}

class_table <- function(p, dep, kind) {
  tests <- length(p); grid <- as.matrix(expand.grid(rep(list(0:1), tests)))
  if (kind == "random_effect") {
    r <- .9 * expit(dep)
    z <- seq(-9, 9, by = .06); weight <- .06 * dnorm(z)
    q <- sapply(p, function(one) pnorm((qnorm(one) + sqrt(r) * z) / sqrt(1 - r)))
    return(apply(grid, 1, function(x) {
      part <- weight; for (t in 1:tests) part <- part * (if (x[t]) q[, t] else 1 - q[, t]); sum(part)
    }))
  }
  one <- lapply(p, function(q) c(1 - q, q))
  if (kind == "pairs") {
    low <- max(-p[1] * p[2], -(1 - p[1]) * (1 - p[2])); high <- min(p[1] * (1 - p[2]), p[2] * (1 - p[1]))
    cov <- low + (high - low) * expit(dep)
    one <- c(list(as.vector(outer(one[[1]], one[[2]])) + cov * c(1, -1, -1, 1)), one[-(1:2)])
  }
  Reduce(function(a, b) as.vector(outer(a, b)), one)
}

fit_case <- function(name, kind, data, tests, populations) {
  grid <- as.matrix(expand.grid(rep(list(0:1), tests)))
  fits_row <- apply(data$rows[, -1, drop = FALSE], 1, function(x)
    apply(grid, 1, function(full) all(is.na(x) | x == full)))
  deps <- if (kind == "independent") 0 else 2
  k <- populations + 2 * tests + deps
  loss <- function(par) {
    prev <- expit(par[1:populations])
    a <- class_table(expit(par[populations + 1:tests]), par[k - 1], kind)
    b <- class_table(expit(par[populations + tests + 1:tests]), par[k], kind)
    g <- data$rows[, 1]
    p <- prev[g] * colSums(fits_row * a) + (1 - prev[g]) * colSums(fits_row * b)
    if (any(!is.finite(p)) || any(p <= 0)) return(1e10)
    -sum(data$n * log(p))
  }
  set.seed(7)
  starts <- lapply(1:(if (kind == "random_effect") 2 else 4), function(i)
    c(qlogis(runif(populations, .1, .8)), qlogis(runif(tests, .6, .95)), qlogis(runif(tests, .03, .3)), runif(deps, -2, 0)))
  fits <- lapply(starts, function(s) nlminb(s, loss, control = list(eval.max = 4000, iter.max = 2000, rel.tol = 1e-14)))
  best <- fits[[which.min(sapply(fits, function(f) f$objective))]]
  best <- optim(best$par, loss, method = "BFGS", control = list(reltol = 1e-16, maxit = 500, ndeps = rep(1e-5, k)))
  free <- abs(best$par) < 12
  flip <- sum(expit(best$par[populations + 1:tests]) - expit(best$par[populations + tests + 1:tests])) < 0
  stopifnot(!flip, all(free))
  hessian <- optimHess(best$par, loss, control = list(ndeps = rep(1e-4, k)))
  p <- expit(best$par[1:(populations + 2 * tests)])
  se <- sqrt(diag(solve(hessian)))[seq_along(p)] * p * (1 - p)
  profile <- if (kind == "random_effect") c(NA, NA) else {
    at <- populations + 1
    excess <- function(v) {
      inner <- nlminb(best$par[-at], function(rest) loss(append(rest, v, at - 1)), control = list(eval.max = 4000, iter.max = 2000, rel.tol = 1e-11))
      2 * (inner$objective - best$value) - qchisq(.95, 1)
    }
    expit(c(uniroot(excess, best$par[at] - c(3, 0), tol = 1e-8)$root, uniroot(excess, best$par[at] + c(0, 3), tol = 1e-8)$root))
  }
  dep <- if (kind == "random_effect") .9 * expit(best$par[k - 1:0]) else if (kind == "pairs") sapply(0:1, function(d) {
    q <- expit(best$par[populations + d * tests + 1:2]); t <- class_table(expit(best$par[populations + d * tests + 1:tests]), best$par[k - 1 + d], kind)
    sum(t[grid[, 1] == 1 & grid[, 2] == 1]) - prod(q)
  }) else numeric(0)
  message(name)
  rows <- apply(cbind(data$rows, data$n), 1, list_of)
  paste0('  { "name": "', name, '", "kind": "', kind, '", "tests": ', tests, ', "populations": ', populations,
    ',\n    "rows": [', paste(rows, collapse = ", "), '],\n    "logLikelihood": ', number(-best$value),
    ', "shares": ', list_of(p), ', "standardErrors": ', list_of(se), ', "dependence": ', list_of(dep),
    ', "firstSensitivity": ', list_of(profile), " }")
}

set.seed(20801)
three <- list(se = c(.85, .75, .9), sp = c(.95, .9, .85))
four <- list(se = c(.85, .75, .9, .7), sp = c(.95, .9, .85, .92))
wide <- list(se = c(.8, .75, .85, .7), sp = c(.9, .88, .85, .92))
cases <- c(
  fit_case("three tests, one population", "independent", draw(three, 900, .35, 0), 3, 1),
  fit_case("two tests, three populations", "independent", draw(list(se = c(.85, .75), sp = c(.95, .9)), c(500, 600, 400), c(.15, .5, .75), 0), 2, 3),
  fit_case("four tests, two populations, tests missing", "independent", draw(four, c(700, 700), c(.2, .6), .25), 4, 2),
  fit_case("three tests, two populations, a pair", "pairs", draw(c(three, list(copy = c(.4, .3))), c(1500, 1500), c(.2, .6), 0), 3, 2),
  fit_case("four tests, two populations, a pair, tests missing", "pairs", draw(c(wide, list(copy = c(.5, .4))), c(1200, 1200), c(.25, .65), .15), 4, 2),
  fit_case("four tests, two populations, a shared effect", "random_effect", draw(c(wide, list(rho = c(.4, .3))), c(3000, 3000), c(.2, .65), 0), 4, 2)
)
cat("[\n", paste(cases, collapse = ",\n"), "\n]\n", sep = "")
