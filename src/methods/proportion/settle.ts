/**
 * How many observations it takes to decide, if the observed proportion stayed as it is.
 *
 * With `total` observations the count is the share `seen` of them, rounded towards the threshold, so
 * that it never looks better than what was observed. The verdict may come and go between neighbouring
 * totals (the limits form a sawtooth); wanted is the total from which on it stays.
 */
export interface SettleQuestion {
  /** Events and the others among those observed, counted so that their share lies above the threshold. */
  readonly events: number;
  readonly others: number;
  /** Whether so many events and others decide. More events instead of others never undo it. */
  decides(events: number, others: number): boolean;
  /** Totals beyond this are not searched. */
  readonly horizon: number;
}

/**
 * The smallest total from which on the verdict stays, `null` if it lies beyond the horizon.
 *
 * First a total at which even one event less would decide: the rounding costs less than that, so from
 * there on the verdict stays. Then downwards to the last total that does not decide. Within a run of
 * totals with the same number of others (or of events, whichever is rarer) the verdict changes once,
 * so that only one total of each run has to be looked at.
 */
export function settledTotal(question: SettleQuestion): number | null {
  const certain = certainTotal(question);
  if (certain === null) return null;
  return question.others <= question.events
    ? lastOpenByOthers(question, certain) + 1
    : lastOpenByEvents(question, certain) + 1;
}

/** Events among `total`, rounded down: exact as long as the products are. */
function eventsAt(question: SettleQuestion, total: number): number {
  const observed = question.events + question.others;
  const product = total * question.events;
  if (product <= Number.MAX_SAFE_INTEGER) return Math.floor(product / observed);
  return Number((BigInt(total) * BigInt(question.events)) / BigInt(observed));
}

function decidesAt(question: SettleQuestion, total: number): boolean {
  const events = eventsAt(question, total);
  return question.decides(events, total - events);
}

/** A total at which one event less would still decide, close to the first such. */
function certainTotal(question: SettleQuestion): number | null {
  const certain = (total: number) => {
    const events = eventsAt(question, total) - 1;
    return events >= 0 && question.decides(events, total - events);
  };
  let high = question.events + question.others;
  while (!certain(high)) {
    if (high >= question.horizon) return null;
    high = Math.min(question.horizon, high * 2);
  }
  let low = 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (certain(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** The last total up to `from` that does not decide; 0 if all do. Others are rare or none. */
function lastOpenByOthers(question: SettleQuestion, from: number): number {
  const observed = question.events + question.others;
  let end = from;
  while (end > 0) {
    const others = end - eventsAt(question, end);
    // Fewest observations with so many others: one more than what keeps them at others - 1.
    const start = others === 0 ? 1 : Math.floor(((others - 1) * observed) / question.others) + 1;
    if (!decidesAt(question, start)) return lastOpenBetween(question, start, end);
    end = start - 1;
  }
  return 0;
}

/** Within one run more observations are more events: once decided, decided to the end of the run. */
function lastOpenBetween(question: SettleQuestion, open: number, end: number): number {
  let low = open;
  let high = end + 1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (decidesAt(question, middle)) high = middle;
    else low = middle;
  }
  return low;
}

/** As above where events are rare: within a run of equal events more observations are more others. */
function lastOpenByEvents(question: SettleQuestion, from: number): number {
  const observed = question.events + question.others;
  let end = from;
  while (end > 0) {
    if (!decidesAt(question, end)) return end;
    end = Math.ceil((eventsAt(question, end) * observed) / question.events) - 1;
  }
  return 0;
}
