/** Which side of a distribution a probability is counted from: P(X <= x) or P(X > x). */
export type Tail = "lower" | "upper";

/** The opposite side. */
export function otherTail(tail: Tail): Tail {
  return tail === "lower" ? "upper" : "lower";
}
