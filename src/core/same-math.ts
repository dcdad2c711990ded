import { acos, asin, cos, LARGEST_ANGLE, sin, tanh } from "./elementary/angles.ts";
import { exp, expm1 } from "./elementary/exponential.ts";
import { log, log1p, log2, log10 } from "./elementary/logarithm.ts";
import { pow } from "./elementary/power.ts";

/*
 * ECMAScript leaves the last digit of its elementary functions to each engine, and engines differ: of 20,000
 * arguments each, Node 20 and a Chromium of 2026 disagreed on one in ten for exp, log, pow, sin and most others.
 * A report must have the same bytes wherever it is made. So the programs (command line, page, worker) import this
 * file before all others: it puts functions in place that use nothing but the operations which IEEE 754 defines to
 * the last bit. `**` can't be replaced so; the house writes `Math.pow`, or a product.
 *
 * Not for libraries and pure rooms: they compute with whatever `Math` the program has.
 */
const { sin: engineSin, cos: engineCos } = Math;

Object.assign(Math, {
  exp,
  expm1,
  log,
  log1p,
  log2,
  log10,
  pow,
  asin,
  acos,
  tanh,
  sin: (x: number) => (Math.abs(x) < LARGEST_ANGLE ? sin(x) : engineSin(x)),
  cos: (x: number) => (Math.abs(x) < LARGEST_ANGLE ? cos(x) : engineCos(x)),
});
