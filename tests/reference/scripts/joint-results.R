# Makes oracle-joint-results.csv: probabilities of the eight result patterns of three runs, R 4.2.2.
# Model "pairs": normal variables behind the results; the correlation of each pair found by uniroot so that the
# two results have the phi stated; then nested integrate(). Model "shared": one effect of every person on the
# probit scale (and one of each kit), integrated by integrate(). Pattern bit i: run i reactive.
options(digits = 17)
bvn <- function(x, y, r) integrate(function(u) dnorm(u) * pnorm((y - r * u) / sqrt(1 - r^2)), -Inf, x,
  rel.tol = 1e-12, abs.tol = 0, subdivisions = 1000)$value
latent <- function(p, q, phi) { both <- p * q + phi * sqrt(p * (1 - p) * q * (1 - q))
  if (phi == 0) return(0)
  uniroot(function(r) bvn(qnorm(p), qnorm(q), r) - both, c(-.98, .98), tol = 1e-13)$root }
inside <- function(low, high, r12, r13, r23) { # P(low < X < high), three variables
  s2 <- sqrt(1 - r12^2); part <- (r23 - r12 * r13) / s2; s3 <- sqrt(1 - r13^2 - part^2)
  integrate(Vectorize(function(u) dnorm(u) * integrate(function(w) dnorm(w) *
    (pnorm((high[3] - r13 * u - part * w) / s3) - pnorm((low[3] - r13 * u - part * w) / s3)),
    max(-9, (low[2] - r12 * u) / s2), min(9, (high[2] - r12 * u) / s2), rel.tol = 1e-11, abs.tol = 1e-16,
    subdivisions = 500)$value), max(-9, low[1]), min(9, high[1]), rel.tol = 1e-10, abs.tol = 1e-15,
    subdivisions = 500)$value }
cat("# R 4.2.2, uniroot and integrate; made by joint-results.R\n")
cat("model,p,dependence,pattern,value\n")
write_row <- function(model, p, dependence, pattern, value) cat(model, paste(p, collapse = " "),
  paste(dependence, collapse = " "), pattern, sprintf("%.15g", value), sep = ",", fill = FALSE, append = TRUE)
row <- function(...) { write_row(...); cat("\n") }
for (case in list(
  list(p = c(.02, .02, .02), phi = c(.1, .1, .1)), list(p = c(.99, .98, .985), phi = c(.1, .05, .05)),
  list(p = c(.004, .005, .02), phi = c(.08, .02, .03)), list(p = c(.3, .6, .8), phi = c(.3, -.2, .15)),
  list(p = c(.02, .02, .01), phi = c(.6, .1, .1)), list(p = c(.95, .95, .95), phi = c(.5, .5, .5)))) {
  r12 <- latent(case$p[1], case$p[2], case$phi[1]); r13 <- latent(case$p[1], case$p[3], case$phi[2])
  r23 <- latent(case$p[2], case$p[3], case$phi[3]); z <- qnorm(case$p)
  for (bits in 0:7) { yes <- bitwAnd(bits, c(1, 2, 4)) > 0
    row("pairs", case$p, case$phi, bits, inside(ifelse(yes, -Inf, z), ifelse(yes, z, Inf), r12, r13, r23)) } }
for (case in list(list(p = c(.02, .01, .015), s = c(1, .8, 1.2), own = 0), list(p = c(.99, .98, .9), s = c(.5, .5, .5), own = 0),
  list(p = c(.3, .6, .7), s = c(3, 2, -1), own = 0), list(p = c(.02, .02, .01), s = c(.7, .7, .7), own = .9))) {
  # with own > 0 the first two runs are of one kit
  a <- qnorm(case$p) * sqrt(1 + case$s^2 + case$own^2)
  for (bits in 0:7) { yes <- bitwAnd(bits, c(1, 2, 4)) > 0; sign <- ifelse(yes, 1, -1)
    given <- function(u) { third <- pnorm(sign[3] * (a[3] + case$s[3] * u) / sqrt(1 + case$own^2))
      if (case$own == 0) return(third * pnorm(sign[1] * (a[1] + case$s[1] * u)) * pnorm(sign[2] * (a[2] + case$s[2] * u)))
      third * sapply(u, function(one) integrate(function(v) dnorm(v) * pnorm(sign[1] * (a[1] + case$s[1] * one + case$own * v)) *
        pnorm(sign[2] * (a[2] + case$s[2] * one + case$own * v)), -9, 9, rel.tol = 1e-12, abs.tol = 1e-17, subdivisions = 500)$value) }
    row("shared", case$p, c(case$s, case$own), bits,
      integrate(function(u) dnorm(u) * given(u), -9, 9, rel.tol = 1e-11, abs.tol = 1e-16, subdivisions = 500)$value) } }
