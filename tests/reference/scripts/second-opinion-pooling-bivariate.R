# Second opinions for tests/methods/pooling/bivariate-second-opinion.test.ts and influence.test.ts.
# Run: Rscript second-opinion-pooling-bivariate.R > ../second-opinion-pooling-bivariate.json
# Made with R 4.2.2 base and stats; the part "laplace" with lme4 1.1-31 (general mixed models).
# Exact likelihood: trapezoidal rule on a fixed grid of the two standard normals (73 by 73 from -7.2 to 7.2), no
# adaptive places. Maximum by nlminb, polished by optim (BFGS); standard errors by optimHess; profile limits by
# uniroot over nlminb of the other unknowns. Normal approximations: means by generalised least squares.

number <- function(x) ifelse(is.na(x), "null", sprintf("%.12g", as.numeric(x)))
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
rows_of <- function(m) paste0("[", paste(apply(m, 1, list_of), collapse = ", "), "]")
quoted <- function(...) { x <- list(...); paste0("{", paste0('"', names(x), '": ', unlist(x), collapse = ", "), "}") }

grid <- seq(-7.2, 7.2, by = 0.2)
weight <- 0.2 * dnorm(grid)

# one study: tp, fn, fp, tn; joint weights over the grid (rows z1, columns z2)
joint <- function(s, muA, muB, sA, sB, r) {
  fA <- dbinom(s[1], s[1] + s[2], plogis(muA + sA * grid)) * weight
  eta <- muB + sB * outer(r * grid, sqrt(1 - r^2) * grid, "+")
  fB <- matrix(dbinom(s[4], s[3] + s[4], plogis(eta)), length(grid))
  fA * fB * rep(weight, each = length(grid))
}
# theta: means of A by level, of B by level, log sA, log sB, atanh r
exact <- function(theta, d, la, lb) {
  k <- max(la); m <- max(lb)
  sA <- exp(theta[k + m + 1]); sB <- exp(theta[k + m + 2]); r <- tanh(theta[k + m + 3])
  -sum(sapply(seq_len(nrow(d)), function(i) log(sum(joint(d[i, ], theta[la[i]], theta[k + lb[i]], sA, sB, r)))))
}
normal <- function(restricted) function(theta, d, la, lb, mu = FALSE) {
  k <- max(la); m <- max(lb); n <- nrow(d)
  e <- d; zero <- apply(d == 0, 1, any); e[zero, ] <- e[zero, ] + 0.5
  y <- cbind(log(e[, 1] / e[, 2]), log(e[, 4] / e[, 3])); v <- cbind(1 / e[, 1] + 1 / e[, 2], 1 / e[, 3] + 1 / e[, 4])
  sA <- exp(theta[1]); sB <- exp(theta[2]); r <- tanh(theta[3])
  S <- matrix(c(sA^2, r * sA * sB, r * sA * sB, sB^2), 2)
  N <- matrix(0, k + m, k + m); b <- numeric(k + m); W <- list(); X <- list(); ld <- 0
  for (i in 1:n) { V <- S + diag(v[i, ]); W[[i]] <- solve(V); ld <- ld + log(det(V))
    x <- matrix(0, 2, k + m); x[1, la[i]] <- 1; x[2, k + lb[i]] <- 1; X[[i]] <- x
    N <- N + t(x) %*% W[[i]] %*% x; b <- b + t(x) %*% W[[i]] %*% y[i, ] }
  est <- solve(N, b)
  if (mu) return(list(mu = as.vector(est), cov = solve(N)))
  q <- sum(sapply(1:n, function(i) { e <- y[i, ] - X[[i]] %*% est; t(e) %*% W[[i]] %*% e }))
  p <- if (restricted) k + m else 0
  0.5 * (ld + q + (2 * n - p) * log(2 * pi) + if (restricted) log(det(N)) else 0)
}

best <- function(f, start) {
  a <- nlminb(start, f, control = list(rel.tol = 1e-14, iter.max = 500, eval.max = 2000))
  b <- optim(a$par, f, method = "BFGS", control = list(reltol = 1e-15, maxit = 200))
  if (b$value < a$objective) b$par else a$par
}
profile_limits <- function(f, at, place, back, drop = qchisq(.95, 1) / 2) {
  top <- f(at)
  loss <- function(value, side_start = at) {
    g <- function(rest) { x <- at; x[-place] <- rest; x[place] <- value; f(x) }
    a <- nlminb(at[-place], g, control = list(rel.tol = 1e-13)); a$objective - top - drop
  }
  sapply(c(-1, 1), function(side) {
    far <- at[place]; for (step in c(.25, .5, 1, 1.5, 2, 3, 4)) {
      far <- at[place] + side * step
      if (loss(far) > 0) return(back(uniroot(loss, sort(c(at[place], far)), tol = 1e-9)$root)) }
    NA })
}

twelve <- matrix(c(45,5,6,94, 62,14,3,137, 28,9,12,88, 90,6,9,211, 33,11,2,98, 71,8,15,165, 54,20,4,146, 19,2,8,62,
  120,18,10,290, 40,10,1,79, 66,7,14,136, 85,25,5,245), ncol = 4, byrow = TRUE)
# few false positives, some studies without any, one without people with the condition
sparse <- matrix(c(18,1,0,60, 25,4,1,140, 9,5,0,45, 40,2,6,150, 0,0,1,80, 31,1,0,95, 22,8,5,70, 14,1,2,55, 27,9,1,88,
  36,2,0,120), ncol = 4, byrow = TRUE)
split <- list(twelve = rep(1:2, 6), sparse = rep(1:2, each = 5))

out <- c()
for (name in c("twelve", "sparse")) {
  d <- get(name); one <- rep(1L, nrow(d)); two <- split[[name]]
  start <- c(1.8, 3.2, log(.5), log(.7), -.3)
  f <- function(t) exact(t, d, one, one)
  at <- best(f, start)
  H <- optimHess(at, f, control = list(ndeps = rep(1e-4, 5))); C <- solve(H)
  full <- exact(best(function(t) exact(t, d, two, two), c(at[1], at[1], at[2], at[2], at[3:5])), d, two, two)
  onlyB <- exact(best(function(t) exact(t, d, one, two), c(at[1], at[2], at[2], at[3:5])), d, one, two)
  onlyA <- exact(best(function(t) exact(t, d, two, one), c(at[1], at[1], at[2], at[3:5])), d, two, one)
  post <- t(sapply(seq_len(nrow(d)), function(i) {
    w <- joint(d[i, ], at[1], at[2], exp(at[3]), exp(at[4]), tanh(at[5])); w <- w / sum(w)
    A <- matrix(at[1] + exp(at[3]) * grid, length(grid), length(grid))
    r <- tanh(at[5]); B <- at[2] + exp(at[4]) * outer(r * grid, sqrt(1 - r^2) * grid, "+")
    c(sum(w * A), sqrt(sum(w * A^2) - sum(w * A)^2), sum(w * B), sqrt(sum(w * B^2) - sum(w * B)^2)) }))
  out <- c(out, quoted(name = paste0('"', name, '"'), kind = '"binomial"', rows = rows_of(d), levels = list_of(two),
    means = list_of(at[1:2]), spread = list_of(c(exp(at[3:4]), tanh(at[5]))), logLikelihood = number(-f(at)),
    covariance = list_of(c(C[1, 1], C[2, 2], C[1, 2])),
    sensitivityLimits = list_of(profile_limits(f, at, 1, identity)),
    specificityLimits = list_of(profile_limits(f, at, 2, identity)),
    spreadLimits = paste0("[", paste(list_of(profile_limits(f, at, 3, exp)), list_of(profile_limits(f, at, 4, exp)),
      list_of(profile_limits(f, at, 5, tanh)), sep = ", "), "]"),
    tests = list_of(2 * c(-full + -(-f(at)), onlyB - full, onlyA - full)), posterior = rows_of(post)))
}
for (restricted in c(FALSE, TRUE)) {
  d <- twelve; one <- rep(1L, 12); g <- normal(restricted)
  f <- function(t) g(t, d, one, one)
  at <- best(f, c(log(.5), log(.7), -.3)); gls <- g(at, d, one, one, TRUE)
  without <- t(sapply(1:12, function(i) { e <- d[-i, ]; o <- one[-i]
    a <- best(function(t) g(t, e, o, o), at); m <- g(a, e, o, o, TRUE); c(m$mu, exp(a[1:2]), tanh(a[3])) }))
  out <- c(out, quoted(name = '"twelve"', kind = if (restricted) '"normal_reml"' else '"normal_ml"', rows = rows_of(d),
    means = list_of(gls$mu), spread = list_of(c(exp(at[1:2]), tanh(at[3]))), logLikelihood = number(-f(at)),
    covariance = list_of(c(gls$cov[1, 1], gls$cov[2, 2], gls$cov[1, 2])),
    spreadLimits = paste0("[", paste(list_of(profile_limits(f, at, 1, exp)), list_of(profile_limits(f, at, 2, exp)),
      list_of(profile_limits(f, at, 3, tanh)), sep = ", "), "]"), without = rows_of(without)))
}
laplace <- c()
suppressMessages(library(lme4))
set.seed(20)
many <- t(sapply(1:100, function(i) { z <- rnorm(2); a <- plogis(2 + .5 * z[1])
  b <- plogis(3 + .7 * (-.5 * z[1] + sqrt(.75) * z[2])); n <- 30 + sample(150, 1); m <- 60 + sample(300, 1)
  tp <- rbinom(1, n, a); tn <- rbinom(1, m, b); c(tp, n - tp, m - tn, tn) }))
for (name in c("twelve", "many")) {
  d <- get(name); n <- nrow(d)
  long <- data.frame(study = factor(rep(1:n, 2)), sens = rep(1:0, each = n), spec = rep(0:1, each = n),
    right = c(d[, 1], d[, 4]), wrong = c(d[, 2], d[, 3]))
  m <- glmer(cbind(right, wrong) ~ 0 + sens + spec + (0 + sens + spec | study), long, binomial, nAGQ = 1,
    control = glmerControl(optimizer = "bobyqa", tolPwrss = 1e-12, optCtrl = list(rhobeg = .002, rhoend = 2e-8, maxfun = 1e5)))
  s <- VarCorr(m)$study
  laplace <- c(laplace, quoted(name = paste0('"', name, '"'), rows = rows_of(d), means = list_of(fixef(m)),
    spread = list_of(c(attr(s, "stddev"), attr(s, "correlation")[1, 2])), logLikelihood = number(as.numeric(logLik(m))),
    standardErrors = list_of(sqrt(diag(as.matrix(vcov(m))))), modes = rows_of(as.matrix(ranef(m)$study)[1:12, ])))
}
# middle of the step of a predicted count, as a normal score
scores <- t(apply(matrix(c(45,50,1.7,.45, 2,60,3,.8, 60,60,3.1,.6, 900,1000,2,.3, 14,15,1.2,0.05), ncol = 4, byrow = TRUE), 1,
  function(x) { h <- function(z) { p <- plogis(x[3] + x[4] * z)
      (pbinom(x[1] - 1, x[2], p) + dbinom(x[1], x[2], p) / 2) * dnorm(z) }
    c(x, qnorm(integrate(h, -9, 9, rel.tol = 1e-12, subdivisions = 2000)$value)) }))
cat(quoted(fits = paste0("[", paste(out, collapse = ",\n "), "]"), laplace = paste0("[", paste(laplace, collapse = ",\n "), "]"),
  scores = rows_of(scores)), "\n")
