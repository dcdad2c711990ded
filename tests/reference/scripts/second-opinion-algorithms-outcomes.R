# Second opinions for tests/methods/algorithms/outcomes-second-opinion.test.ts, by R base and stats only.
# Run (a minute): Rscript second-opinion-algorithms-outcomes.R > ../second-opinion-algorithms-outcomes.json
# Made with R 4.2.2. Every device of every person's way is a branch of its own, invalid ones too; the joint
# probability of the valid results is a product (independent), p1 p2 + phi sqrt(p1 q1 p2 q2) (two runs), or an
# integral over the shared effect (integrate).

number <- function(x) sprintf("%.17g", as.numeric(x))
quoted <- function(x) paste0('"', x, '"')
fields <- function(...) {
  parts <- list(...)
  paste0("{ ", paste(sprintf('"%s": %s', names(parts), unlist(parts)), collapse = ", "), " }")
}
array_of <- function(x) paste0("[", paste(x, collapse = ", "), "]")

step <- function(id, kit, reactive, nonreactive, again = 1, invalid = "inconclusive")
  list(id = id, kit = kit, reactive = reactive, nonreactive = nonreactive, again = again, invalid = invalid)

joint_of <- function(case, truth) {
  share <- sapply(case$kits, function(k) if (truth == "diseased") k[1] else 1 - k[2])
  d <- case$dependence
  signs <- function(results) ifelse(results == 1, 1, -1)
  function(kits, results) {
    p <- share[kits]
    if (length(p) == 0) return(1)
    alone <- prod(ifelse(results == 1, p, 1 - p))
    if (d$kind == "independent" || length(p) == 1) return(alone)
    if (d$kind == "pairs") {
      stopifnot(length(p) == 2)
      cov <- d$phi[[truth]] * sqrt(prod(p * (1 - p)))
      return(alone + prod(signs(results)) * cov)
    }
    loading <- if (is.null(d$loadings)) rep(1, length(p)) else d$loadings[kits]
    own <- if (is.null(d$same)) 0 else d$same[[truth]]
    stopifnot(own == 0 || length(unique(kits)) == 1)
    spread <- sqrt((loading * d$spread[[truth]])^2 + own^2) * sign(loading)
    level <- qnorm(p) * sqrt(1 + spread^2)
    given <- function(u) sapply(u, function(one) prod(pnorm(signs(results) * (level + spread * one))) * dnorm(one))
    integrate(given, -9, 0, rel.tol = 1e-11, subdivisions = 2000)$value +
      integrate(given, 0, 9, rel.tol = 1e-11, subdivisions = 2000)$value
  }
}

follow <- function(case, truth) {
  joint <- joint_of(case, truth)
  known <- new.env()
  chance <- function(kits, results) {
    key <- paste(c("k", kits, "r", results), collapse = " ")
    if (is.null(known[[key]])) known[[key]] <- joint(kits, results)
    known[[key]]
  }
  ids <- sapply(case$steps, `[[`, "id")
  ends <- c(positive = 0, negative = 0, inconclusive = 0, lost = 0)
  reached <- setNames(rep(0, length(ids)), ids)
  devices <- matrix(0, length(case$kits), 60)
  leave <- function(end, weight, used) {
    ends[end] <<- ends[end] + weight
    for (k in seq_along(used)) devices[k, used[k] + 1] <<- devices[k, used[k] + 1] + weight
  }
  arrive <- function(nxt, kits, results, weight, used, pass) {
    if (nxt %in% ids) {
      if (pass == 1) reached[nxt] <<- reached[nxt] + weight * chance(kits, results)
      return(device(case$steps[[match(nxt, ids)]], kits, results, weight, used, pass, 0))
    }
    if (nxt == "inconclusive" && !is.null(case$retest) && pass == 1) {
      leave("lost", weight * (1 - case$retest) * chance(kits, results), used)
      return(arrive(ids[1], kits, results, weight * case$retest, used, 2))
    }
    leave(nxt, weight * chance(kits, results), used)
  }
  device <- function(step, kits, results, weight, used, pass, before) {
    kit <- match(step$kit, names(case$kits))
    none <- case$kits[[kit]][3]
    used[kit] <- used[kit] + 1
    arrive(step$reactive, c(kits, kit), c(results, 1), weight * (1 - none), used, pass)
    arrive(step$nonreactive, c(kits, kit), c(results, 0), weight * (1 - none), used, pass)
    if (none == 0) return(invisible())
    if (before < step$again) device(step, kits, results, weight * none, used, pass, before + 1)
    else arrive(step$invalid, kits, results, weight * none, used, pass)
  }
  arrive(ids[1], integer(0), integer(0), 1, rep(0, length(case$kits)), 1)
  used <- apply(devices, 1, function(row) array_of(number(row[seq_len(max(which(row > 0)))])))
  fields(
    positive = number(ends["positive"]), negative = number(ends["negative"]),
    inconclusive = number(ends["inconclusive"]), lost = number(ends["lost"]),
    reached = array_of(number(reached)), devices = array_of(used))
}

input_of <- function(case) {
  kits <- sapply(names(case$kits), function(id) {
    k <- number(case$kits[[id]])
    fields(id = quoted(id), sensitivity = k[1], specificity = k[2], invalid = k[3])
  })
  steps <- sapply(case$steps, function(s) fields(
    id = quoted(s$id), kit = quoted(s$kit), reactive = quoted(s$reactive), nonreactive = quoted(s$nonreactive),
    again = number(s$again), invalid = quoted(s$invalid)))
  d <- case$dependence
  by_truth <- function(pair) c(diseased = number(pair[["diseased"]]), nondiseased = number(pair[["nondiseased"]]))
  dependence <- switch(d$kind,
    independent = fields(kind = quoted("independent")),
    pairs = fields(kind = quoted("pairs"), pairs = array_of(do.call(fields, c(
      list(first = quoted(d$pair[1]), second = quoted(d$pair[2])), as.list(by_truth(d$phi)))))),
    shared = do.call(fields, c(
      list(kind = quoted("shared")),
      lapply(by_truth(d$spread), function(one) fields(spread = one)),
      if (!is.null(d$loadings)) list(loadings = do.call(fields, setNames(as.list(number(d$loadings)), names(case$kits)))),
      if (!is.null(d$same)) list(sameKit = do.call(fields, as.list(by_truth(d$same)))))))
  fields(
    kits = array_of(kits), steps = array_of(steps),
    retest = if (is.null(case$retest)) "null" else fields(share = number(case$retest)),
    dependence = dependence, prevalences = array_of(number(c(.001, .05, .3))))
}

a <- c(.985, .97, .03); b <- c(.96, .99, .02); l <- c(.995, .999, 0)
both <- function(d, n) list(diseased = d, nondiseased = n)
serial <- list(step("one", "A", "two", "negative"), step("two", "B", "positive", "negative", 2))
two <- list(step("one", "A", "two", "negative", 2), step("two", "B", "positive", "inconclusive", 0))
three <- list(step("one", "A", "two", "negative", 2), step("two", "B", "three", "inconclusive", 1),
  step("three", "L", "positive", "inconclusive", 0))
twice <- list(step("one", "A", "two", "negative", 1), step("two", "A", "positive", "inconclusive", 0))
majority <- list(step("one", "A", "two_r", "two_n", 1, "three"), step("two_r", "B", "positive", "three", 1, "three"),
  step("two_n", "B", "three", "negative", 1, "inconclusive"), step("three", "L", "positive", "negative", 3))
cases <- list(
  "one after the other, independent, invalid runs" =
    list(kits = list(A = a, B = b), steps = serial, dependence = list(kind = "independent")),
  "three in a row, independent, 62 % return" =
    list(kits = list(A = a, B = b, L = l), steps = three, retest = .62, dependence = list(kind = "independent")),
  "majority, independent, 40 % return" =
    list(kits = list(A = a, B = b, L = l), steps = majority, retest = .4, dependence = list(kind = "independent")),
  "two in a row, phi .1 and .08, invalid runs" =
    list(kits = list(A = a, B = b), steps = two,
      dependence = list(kind = "pairs", pair = c("A", "B"), phi = both(.1, .08))),
  "the same kit twice, phi .3 and .25, invalid runs" =
    list(kits = list(A = a), steps = twice,
      dependence = list(kind = "pairs", pair = c("A", "A"), phi = both(.3, .25))),
  "two in a row, negative phi" =
    list(kits = list(A = a, B = b), steps = two,
      dependence = list(kind = "pairs", pair = c("A", "B"), phi = both(-.02, -.01))),
  "majority, shared effect with loadings" =
    list(kits = list(A = a, B = b, L = l), steps = majority,
      dependence = list(kind = "shared", spread = both(.8, 1.1), loadings = c(1, .7, .4))),
  "two in a row, shared effect, 62 % return" =
    list(kits = list(A = a, B = b), steps = two, retest = .62,
      dependence = list(kind = "shared", spread = both(.6, .9))),
  "the same kit twice, shared effects, half return" =
    list(kits = list(A = a), steps = twice, retest = .5,
      dependence = list(kind = "shared", spread = both(.6, .9), same = both(.5, .7))))

rows <- sapply(names(cases), function(name) paste0("  ", fields(
  name = quoted(name), input = input_of(cases[[name]]),
  diseased = follow(cases[[name]], "diseased"), nondiseased = follow(cases[[name]], "nondiseased"))))
cat("[\n", paste(rows, collapse = ",\n"), "\n]\n", sep = "")
