# Second opinions for tests/methods/roc/detection-limit.test.ts and calibration.test.ts, by R base and stats only.
# Run: Rscript second-opinion-detection-calibration.R > ../second-opinion-detection-calibration.json
# Made with R 4.2.2. Lines by glm(binomial(link = "probit" or "logit")) with epsilon 1e-15; fiducial limits by uniroot on
# (a + b x - link(P))^2 - t^2 h variance(a + b x), variance from the information at the coefficients; calibration by glm with offset, anova-like
# differences of logLik; Brier score and its parts person by person; groups by the rank of the middle person.

number <- function(x) ifelse(is.na(x), "null", sprintf("%.15g", as.numeric(x)))
list_of <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")

# glm() stops when the deviance rests, which leaves coefficients 1e-8 away: fifty more of its own steps.
settle <- function(fit) {
  x <- unname(model.matrix(fit)); y <- fit$y; n <- fit$prior.weights; family <- fit$family; off <- if (is.null(fit$offset)) 0 else fit$offset
  b <- unname(coef(fit))
  for (k in 1:50) {
    eta <- as.vector(x %*% b) + off; mu <- family$linkinv(eta); d <- family$mu.eta(eta); w <- n * d^2 / family$variance(mu)
    b <- b + as.vector(solve(t(x) %*% (x * w), t(x) %*% (w * (y - mu) / d)))
  }
  fit$coefficients[] <- b; fit$linear.predictors <- as.vector(x %*% b) + off; fit$fitted.values <- family$linkinv(fit$linear.predictors)
  fit
}
# glm's own vcov() is from the weights of the step before last: here at the coefficients themselves.
information_inverse <- function(fit) {
  x <- unname(model.matrix(fit)); family <- fit$family; eta <- fit$linear.predictors; mu <- family$linkinv(eta)
  solve(t(x) %*% (x * (fit$prior.weights * family$mu.eta(eta)^2 / family$variance(mu))))
}
panel <- function(concentration, reactive, tested, probabilities = c(.05, .5, .95)) {
  x <- log10(concentration)
  unlist(lapply(c("probit", "logit"), function(link) {
    fit <- glm(cbind(reactive, tested - reactive) ~ x, family = binomial(link = link), control = list(epsilon = 1e-15, maxit = 200))
    fit <- settle(fit); deviance_of <- sum(fit$family$dev.resids(fit$y, fit$fitted.values, fit$prior.weights))
    b <- unname(coef(fit)); v <- information_inverse(fit); df <- length(x) - 2
    pearson <- sum(fit$prior.weights * (fit$y - fit$fitted.values)^2 / fit$family$variance(fit$fitted.values))
    quantile_of <- if (link == "probit") qnorm else qlogis
    unlist(lapply(c("ignore", "widen"), function(how) {
      h <- if (how == "widen") max(1, pearson / df) else 1
      t <- if (h > 1) qt(.975, df) else qnorm(.975)
      g <- t^2 * h * v[2, 2] / b[2]^2
      limits <- sapply(probabilities, function(p) {
        middle <- (quantile_of(p) - b[1]) / b[2]
        if (g >= 1) return(c(middle, NA, NA))
        f <- function(x) (b[1] + b[2] * x - quantile_of(p))^2 - t^2 * h * (v[1, 1] + 2 * x * v[1, 2] + x^2 * v[2, 2])
        reach <- function(side) { far <- .01; while (f(middle + side * far) < 0) far <- far * 2; uniroot(f, sort(middle + side * c(0, far)), tol = 1e-13)$root }
        c(middle, reach(-1), reach(1))
      })
      end <- max(x); half <- t * sqrt(h * (v[1, 1] + 2 * end * v[1, 2] + end^2 * v[2, 2]))
      top <- (if (link == "probit") pnorm else plogis)(b[1] + b[2] * end + c(0, -half, half))
      item(concentration = list_of(concentration), reactive = list_of(reactive), tested = list_of(tested), link = sprintf('"%s"', link),
        how = sprintf('"%s"', how), line = list_of(c(b, sqrt(diag(v)), v[1, 2])),
        fit = list_of(c(deviance_of, pearson, df, pchisq(pearson, df, lower.tail = FALSE), h, g)),
        probabilities = list_of(probabilities), limits = list_of(as.vector(limits)), top = list_of(top))
    }))
  }))
}
detection <- c(
  panel(c(10, 20, 40, 80, 160, 320), c(1, 3, 9, 16, 20, 20), rep(20, 6)),
  panel(c(1, 2, 4, 8, 16), c(2, 9, 5, 18, 19), rep(20, 5)),
  panel(c(.5, .5, 1, 1, 2, 2, 4, 4), c(3, 1, 8, 3, 14, 9, 15, 15), c(24, 24, 24, 24, 15, 15, 15, 15), c(.2, .9, .99)),
  panel(c(10.2, 7.7, 5.1, 3.8, 2.6), c(44, 42, 24, 16, 6), c(50, 49, 46, 48, 50)),
  panel(c(1, 2, 4), c(4, 5, 6), c(10, 10, 10)))

calibrate <- function(p, y, groups) {
  lp <- qlogis(p); n <- length(p); control <- list(epsilon = 1e-15, maxit = 100)
  large <- settle(glm(y ~ 1 + offset(lp), family = binomial, control = control))
  full <- settle(glm(y ~ lp, family = binomial, control = control))
  given <- sum(ifelse(y == 1, log(p), log(1 - p)))
  chi <- 2 * (as.numeric(logLik(full)) - given)
  score <- (p - y)^2; share <- mean(y)
  tab <- table(p); place <- cumsum(tab) - tab / 2
  g <- pmin(groups - 1, floor(as.vector(place[match(p, as.numeric(names(tab)))]) * groups / n))
  if (any(duplicated(round(p, 12)) & !duplicated(p))) stop("nearly equal probabilities")
  means <- sapply(split(seq_len(n), g), function(i) c(length(i), mean(p[i]), sum(y[i]), sum(y[i] - p[i])^2 / sum(p[i] * (1 - p[i]))))
  rel <- sum(means[1, ] * (means[2, ] - means[3, ] / means[1, ])^2) / n
  res <- sum(means[1, ] * (means[3, ] / means[1, ] - share)^2) / n
  # What groups hide (Stephenson and others): variance within groups less twice the covariance with the truth.
  within <- mean((p - means[2, match(g, colnames(means))])^2) - 2 * mean((p - means[2, match(g, colnames(means))]) * (y - (means[3, ] / means[1, ])[match(g, colnames(means))]))
  z <- sum((y - p) * (1 - 2 * p)) / sqrt(sum((1 - 2 * p)^2 * p * (1 - p)))
  item(probabilities = list_of(p), ill = list_of(y), groups = number(groups),
    large = list_of(c(coef(large), sqrt(information_inverse(large)))), line = list_of(c(coef(full), sqrt(diag(information_inverse(full))))),
    test = list_of(c(chi, pchisq(chi, 2, lower.tail = FALSE))),
    brier = list_of(c(mean(score), sd(score) / sqrt(n), rel, res, share * (1 - share), within, mean(p * (1 - p)), z, 2 * pnorm(-abs(z)))),
    groupTest = list_of(c(sum(means[4, ]), ncol(means), pchisq(sum(means[4, ]), ncol(means), lower.tail = FALSE))),
    sizes = list_of(means[1, ]), predicted = list_of(means[2, ]), counts = list_of(means[3, ]))
}
set.seed(20262)
draw <- function(n, bend, shift, digits) {
  true <- rnorm(n, -1, 1.5); y <- as.integer(runif(n) < plogis(true))
  p <- round(plogis(shift + bend * true), digits); p <- pmin(pmax(p, 10^-digits), 1 - 10^-digits)
  list(p = p, y = y)
}
cases <- list(c(draw(60, 1, 0, 2), groups = 5), c(draw(120, 1.6, .4, 4), groups = 10), c(draw(80, .5, -.3, 1), groups = 4))
calibration <- sapply(cases, function(one) calibrate(one$p, one$y, one$groups))
cat("{\n", paste(c(block("detection", detection), block("calibration", calibration)), collapse = ",\n"), "\n}\n", sep = "")
