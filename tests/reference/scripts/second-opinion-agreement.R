# Second opinions for tests/methods/agreement/, by R base and stats only.
# Run: Rscript second-opinion-agreement.R > ../second-opinion-agreement.json
# Made with R 4.2.2. Coefficients are written from their definitions by pairs of ratings (recalled);
# standard errors owe nothing to published formulas: they are the delta method with derivatives by the
# complex step (exact to rounding), over cells of a table or over weights of items. Alpha's is the jackknife.

number <- function(x) {
  ifelse(is.na(x), "null", sprintf("%.17g", x))
}
vector_text <- function(x) paste0("[", paste(number(x), collapse = ", "), "]")
matrix_text <- function(m) paste0("[", paste(apply(m, 1, vector_text), collapse = ", "), "]")
item <- function(...) {
  fields <- list(...)
  paste0("    { ", paste(sprintf('"%s": %s', names(fields), unlist(fields)), collapse = ", "), " }")
}
block <- function(name, items) paste0('  "', name, '": [\n', paste(items, collapse = ",\n"), "\n  ]")

# ---- derivatives by the complex step
gradient <- function(f, p) {
  step <- 1e-30
  vapply(seq_along(p), function(at) {
    q <- p + 0i
    q[at] <- q[at] + complex(imaginary = step)
    Im(f(q)) / step
  }, 0)
}
delta_variance <- function(f, p) {
  g <- gradient(f, p)
  sum(p * g^2) - sum(p * g)^2
}

# ---- two readers: coefficients as functions of the cells
weights_of <- function(kind, k) {
  far <- abs(outer(1:k, 1:k, "-"))
  switch(kind,
    none = diag(k),
    linear = 1 - far / (k - 1),
    quadratic = 1 - far^2 / (k - 1)^2,
    ordinal = 1 - choose(far + 1, 2) / choose(k, 2)
  )
}
corrected <- function(po, pe) (po - pe) / (1 - pe)
cohen <- function(w) function(p) {
  m <- matrix(p, nrow(w))
  corrected(sum(w * m), sum(w * outer(rowSums(m), colSums(m))))
}
pooled <- function(m) (rowSums(m) + colSums(m)) / 2
scott <- function(k) function(p) {
  m <- matrix(p, k)
  corrected(sum(diag(m)), sum(pooled(m)^2))
}
gwet <- function(k) function(p) {
  m <- matrix(p, k)
  q <- pooled(m)
  corrected(sum(diag(m)), sum(q * (1 - q)) / (k - 1))
}

two_readers <- function(counts) {
  k <- nrow(counts)
  n <- sum(counts)
  p <- as.vector(counts) / n
  independent <- as.vector(outer(rowSums(counts), colSums(counts))) / n^2
  kappas <- vapply(c("none", "linear", "quadratic", "ordinal"), function(kind) {
    f <- cohen(weights_of(kind, k))
    c(Re(f(p + 0i)), sqrt(delta_variance(f, p) / n), sqrt(delta_variance(f, independent) / n))
  }, numeric(3))
  agreed <- sum(diag(counts))
  exact <- c(
    if (agreed == 0) 0 else qbeta(0.025, agreed, n - agreed + 1),
    if (agreed == n) 1 else qbeta(0.975, agreed + 1, n - agreed)
  )
  with_error <- function(f) c(Re(f(p + 0i)), sqrt(delta_variance(f, p) / (n - 1)))
  item(
    table = matrix_text(counts),
    none = vector_text(kappas[, "none"]), linear = vector_text(kappas[, "linear"]),
    quadratic = vector_text(kappas[, "quadratic"]), ordinal = vector_text(kappas[, "ordinal"]),
    scottPi = vector_text(with_error(scott(k))), ac1 = vector_text(with_error(gwet(k))),
    pabak = vector_text(c(corrected(agreed / n, 1 / k), (k * exact - 1) / (k - 1)))
  )
}

# ---- many readers: items x readers with NA; every coefficient by loops over pairs
pair_agreement <- function(row, w) {
  seen <- row[!is.na(row)]
  m <- length(seen)
  if (m < 2) return(NA)
  total <- 0
  for (i in 1:m) for (j in 1:m) if (i != j) total <- total + w[seen[i], seen[j]]
  total / (m * (m - 1))
}
item_shares <- function(row, k) tabulate(row[!is.na(row)], k) / sum(!is.na(row))
# as a function of item weights, so that the delta method can be had over items
over_items <- function(ratings, k, w, rule) {
  agreement <- apply(ratings, 1, pair_agreement, w = w)
  shares <- t(apply(ratings, 1, item_shares, k = k))
  compared <- !is.na(agreement)
  function(weight) {
    po <- sum(weight[compared] * agreement[compared]) / sum(weight[compared])
    q <- colSums(weight * shares) / sum(weight)
    pe <- if (rule == "shares") sum(q^2) else sum(w) / (k * (k - 1)) * sum(q * (1 - q))
    corrected(po, pe)
  }
}
with_item_error <- function(f, n) {
  u <- gradient(f, rep(1 / n, n))
  c(Re(f(rep(1 / n, n) + 0i)), sqrt(sum(u^2) / (n * (n - 1))))
}
# Krippendorff's alpha by its direct definition: mean difference within items over mean difference
# between any two comparable ratings
alpha <- function(ratings, scale) {
  rows <- lapply(seq_len(nrow(ratings)), function(i) ratings[i, !is.na(ratings[i, ])])
  rows <- rows[lengths(rows) >= 2]
  all <- unlist(rows)
  n <- length(all)
  far <- function(a, b) {
    if (a == b) return(0)
    low <- min(a, b)
    high <- max(a, b)
    switch(scale,
      nominal = 1,
      ordinal = (sum(all >= low & all <= high) - (sum(all == low) + sum(all == high)) / 2)^2,
      interval = (a - b)^2,
      ratio = ((a - b) / (a + b))^2
    )
  }
  within <- 0
  for (row in rows) {
    m <- length(row)
    for (i in 1:m) for (j in 1:m) if (i != j) within <- within + far(row[i], row[j]) / (m - 1)
  }
  between <- 0
  for (i in 1:n) for (j in 1:n) if (i != j) between <- between + far(all[i], all[j])
  1 - (within / n) / (between / (n * (n - 1)))
}
alpha_error <- function(ratings, scale) {
  kept <- ratings[rowSums(!is.na(ratings)) >= 2, , drop = FALSE]
  n <- nrow(kept)
  left <- vapply(1:n, function(i) alpha(kept[-i, , drop = FALSE], scale), 0)
  sqrt((n - 1) / n * sum((left - mean(left))^2))
}

many_readers <- function(ratings, k) {
  n <- nrow(ratings)
  none <- weights_of("none", k)
  scales <- c("nominal", "ordinal", "interval", "ratio")
  alphas <- vapply(scales, function(scale) c(alpha(ratings, scale), alpha_error(ratings, scale)), numeric(2))
  acs <- vapply(c("none", "linear", "quadratic", "ordinal"), function(kind) {
    with_item_error(over_items(ratings, k, weights_of(kind, k), "spread"), n)
  }, numeric(2))
  item(
    categories = k, ratings = matrix_text(ratings),
    fleissKappa = vector_text(with_item_error(over_items(ratings, k, none, "shares"), n)),
    none = vector_text(acs[, "none"]), linear = vector_text(acs[, "linear"]),
    quadratic = vector_text(acs[, "quadratic"]), ordinalWeights = vector_text(acs[, "ordinal"]),
    nominal = vector_text(alphas[, "nominal"]), ordinal = vector_text(alphas[, "ordinal"]),
    interval = vector_text(alphas[, "interval"]), ratio = vector_text(alphas[, "ratio"])
  )
}

set.seed(20240611)
random_table <- function(k, n, agree) {
  first <- sample(k, n, replace = TRUE, prob = (k:1)^2)
  second <- ifelse(runif(n) < agree, first, sample(k, n, replace = TRUE))
  unclass(table(factor(first, 1:k), factor(second, 1:k)))
}
tables <- list(
  matrix(c(5, 4, 4, 387), 2, byrow = TRUE), matrix(c(196, 4, 4, 196), 2, byrow = TRUE),
  matrix(c(118, 5, 2, 0), 2, byrow = TRUE), matrix(c(0, 3, 2, 5), 2, byrow = TRUE),
  matrix(c(900000, 120, 75, 1000), 2, byrow = TRUE)
)
for (k in 2:5) for (agree in c(0.2, 0.6, 0.9)) tables <- c(tables, list(random_table(k, 40 * k, agree)))
random_ratings <- function(items, readers, k, agree, missing) {
  truth <- sample(k, items, replace = TRUE, prob = (k:1)^2)
  ratings <- matrix(sample(k, items * readers, replace = TRUE), items)
  right <- matrix(runif(items * readers) < agree, items)
  ratings[right] <- rep(truth, readers)[right]
  ratings[matrix(runif(items * readers) < missing, items)] <- NA
  ratings[rowSums(!is.na(ratings)) > 0, , drop = FALSE]
}
studies <- list()
for (k in 2:5) for (readers in c(2, 3, 6)) for (missing in c(0, 0.3)) {
  studies <- c(studies, list(list(random_ratings(25, readers, k, 0.6, missing), k)))
}
cat("{\n", paste(c(
  '  "madeBy": "R 4.2.2 base/stats, tests/reference/scripts/second-opinion-agreement.R"',
  block("twoReaders", vapply(tables, two_readers, "")),
  block("manyReaders", vapply(studies, function(s) many_readers(s[[1]], s[[2]]), ""))
), collapse = ",\n"), "\n}\n", sep = "")
