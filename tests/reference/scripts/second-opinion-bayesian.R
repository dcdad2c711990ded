# Posteriors of latent class models by JAGS 4.3.1 (command line) and coda, in R 4.2.2.
# Rscript tests/reference/scripts/second-opinion-bayesian.R > tests/reference/second-opinion-bayesian.json
# About ten minutes. The random effect is drawn person by person, with a normal variable for each: no quadrature.
suppressMessages(library(coda))

dump_list <- function(values, file) {
  for (name in names(values)) assign(name, values[[name]])
  dump(names(values), file)
  # JAGS reads the older spelling of dimensions, and whole numbers without a mark.
  text <- gsub("([0-9])L", "\\1", gsub("\\bdim =", ".Dim =", readLines(file)))
  writeLines(text, file)
}

run <- function(model, data, inits, monitors, draws, warmup = 5000) {
  folder <- tempfile("jags"); dir.create(folder); old <- setwd(folder); on.exit(setwd(old))
  writeLines(model, "model.bug")
  dump_list(data, "data.R")
  for (chain in 1:4) dump_list(c(inits, list(.RNG.name = "base::Mersenne-Twister", .RNG.seed = chain)), sprintf("init%d.R", chain))
  writeLines(c("model in model.bug", "data in data.R", "compile, nchains(4)",
    sprintf("parameters in init%d.R, chain(%d)", 1:4, 1:4), "initialize", sprintf("update %d", warmup),
    paste("monitor", monitors), sprintf("update %d", draws), "coda *, stem(out)"), "run.cmd")
  log <- system2("jags", "run.cmd", stdout = TRUE, stderr = TRUE)
  if (!file.exists("outindex.txt")) stop(paste(log, collapse = "\n"))
  chains <- mcmc.list(lapply(1:4, function(i) read.coda(sprintf("outchain%d.txt", i), "outindex.txt", quiet = TRUE)))
  all <- as.matrix(chains)
  errors <- summary(chains)$statistics
  lapply(setNames(colnames(all), colnames(all)), function(name) {
    column <- all[, name]
    list(mean = mean(column), sd = sd(column), median = median(column),
      lower = unname(quantile(column, 0.025)), upper = unname(quantile(column, 0.975)),
      error = errors[name, "Time-series SE"])
  })
}

cells2 <- function(class, se1, se2, cov) sprintf("
  %1$s[1] <- %2$s * %3$s + %4$s
  %1$s[2] <- %2$s * (1 - %3$s) - %4$s
  %1$s[3] <- (1 - %2$s) * %3$s - %4$s
  %1$s[4] <- (1 - %2$s) * (1 - %3$s) + %4$s", class, se1, se2, cov)

two <- function(dependence, prior) paste0("model {", if (dependence) "
  for (c in 1:2) { height[c] ~ dunif(0, 1) }
  least[1] <- max(0, se[1] + se[2] - 1) - se[1] * se[2]
  most[1] <- min(se[1], se[2]) - se[1] * se[2]
  least[2] <- max(0, f[1] + f[2] - 1) - f[1] * f[2]
  most[2] <- min(f[1], f[2]) - f[1] * f[2]
  for (c in 1:2) { cov[c] <- least[c] + (most[c] - least[c]) * height[c] }" else "
  cov[1] <- 0
  cov[2] <- 0",
  cells2("d", "se[1]", "se[2]", "cov[1]"), cells2("h", "f[1]", "f[2]", "cov[2]"), "
  for (t in 1:2) { se[t] ~ dbeta(", prior, ") sp[t] ~ dbeta(", prior, ") f[t] <- 1 - sp[t] }
  for (k in 1:2) {
    prev[k] ~ dbeta(1, 1)
    for (x in 1:4) { p[k, x] <- max(1.0E-12, prev[k] * d[x] + (1 - prev[k]) * h[x]) }
    n[k, 1:4] ~ dmulti(p[k, 1:4], N[k])
  }
}")
hui <- matrix(c(14, 887, 4, 31, 9, 37, 528, 367), 2)
two_data <- list(n = hui, N = rowSums(hui))
two_inits <- list(se = c(0.9, 0.9), sp = c(0.9, 0.9), prev = c(0.1, 0.6))

# Three tests, the third done in some only: its results are lacking in 150 of 250 people.
some <- "model {
  for (t in 1:3) { se[t] ~ dbeta(9, 2) sp[t] ~ dbeta(9, 2) }
  prev ~ dbeta(2, 3)
  for (x in 1:4) {
    d[x] <- (se[1] * r[x, 1] + (1 - se[1]) * (1 - r[x, 1])) * (se[2] * r[x, 2] + (1 - se[2]) * (1 - r[x, 2]))
    h[x] <- ((1 - sp[1]) * r[x, 1] + sp[1] * (1 - r[x, 1])) * ((1 - sp[2]) * r[x, 2] + sp[2] * (1 - r[x, 2]))
    p[x] <- prev * d[x] + (1 - prev) * h[x]
    q[x] <- prev * d[x] * se[3] + (1 - prev) * h[x] * (1 - sp[3])
    q[x + 4] <- prev * d[x] * (1 - se[3]) + (1 - prev) * h[x] * sp[3]
  }
  two[1:4] ~ dmulti(p[1:4], N2)
  three[1:8] ~ dmulti(q[1:8], N3)
}"
r <- matrix(c(1, 1, 0, 0, 1, 0, 1, 0), 4)
some_data <- list(r = r, two = c(38, 12, 9, 91), N2 = 150, three = c(30, 5, 3, 4, 3, 6, 7, 42), N3 = 100)
some_inits <- list(se = c(0.8, 0.8, 0.8), sp = c(0.8, 0.8, 0.8), prev = 0.4)

# Three tests in 120 people who share a normal variable: person by person.
shared <- "model {
  for (t in 1:3) {
    se[t] ~ dbeta(9, 2)
    sp[t] ~ dbeta(9, 2)
    score[1, t] <- qnorm(se[t], 0, 1)
    score[2, t] <- qnorm(1 - sp[t], 0, 1)
  }
  for (c in 1:2) { rho[c] ~ dunif(0, 0.9) }
  prev ~ dbeta(2, 3)
  for (i in 1:N) {
    class[i] ~ dcat(share[1:2])
    z[i] ~ dnorm(0, 1)
    for (t in 1:3) {
      y[i, t] ~ dbern(phi((score[class[i], t] + sqrt(rho[class[i]]) * z[i]) / sqrt(1 - rho[class[i]])))
    }
  }
  share[1] <- prev
  share[2] <- 1 - prev
}"
patterns <- as.matrix(expand.grid(0:1, 0:1, 0:1))
people <- c(60, 6, 5, 3, 4, 4, 3, 35)
shared_data <- list(y = unname(patterns[rep(1:8, people), ]), N = sum(people))
shared_inits <- list(se = c(0.8, 0.8, 0.8), sp = c(0.8, 0.8, 0.8), prev = 0.4, rho = c(0.3, 0.3))

out <- list(
  independent = run(two(FALSE, "1, 1"), two_data, two_inits, c("se", "sp", "prev"), 100000),
  pair = run(two(TRUE, "20, 2"), two_data, two_inits, c("se", "sp", "prev", "cov"), 400000),
  missing = run(some, some_data, some_inits, c("se", "sp", "prev"), 100000),
  shared = run(shared, shared_data, shared_inits, c("se", "sp", "prev", "rho"), 60000))

number <- function(x) format(x, digits = 8, scientific = FALSE)
one <- function(entry) paste0("{", paste(sprintf('"%s": %s', names(entry), sapply(entry, number)), collapse = ", "), "}")
model <- function(entries) paste0("{\n", paste(sprintf('    "%s": %s', names(entries), sapply(entries, one)), collapse = ",\n"), "\n  }")
cat("{\n", paste(sprintf('  "%s": %s', names(out), sapply(out, model)), collapse = ",\n"), "\n}\n", sep = "")
