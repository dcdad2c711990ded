/** A thing that changes step by step, each step named; what steps leave alone is shared, not copied. */
export interface History<Thing> {
  readonly past: readonly Step<Thing>[];
  readonly present: Thing;
  readonly future: readonly Step<Thing>[];
}

interface Step<Thing> {
  /** What the step did, for "Undo: …". */
  readonly what: string;
  /** Past: what stood before the step. Future: what stands after it. */
  readonly thing: Thing;
}

const STEPS_KEPT = 100;

export function begun<Thing>(present: Thing): History<Thing> {
  return { past: [], present, future: [] };
}

/** One step on; what had been undone is forgotten. */
export function moved<Thing>(history: History<Thing>, what: string, thing: Thing): History<Thing> {
  const past = [...history.past, { what, thing: history.present }].slice(-STEPS_KEPT);
  return { past, present: thing, future: [] };
}

/** The present changed within the last step: a slider drawn on, a text typed on. */
export function amended<Thing>(history: History<Thing>, thing: Thing): History<Thing> {
  return { past: history.past, present: thing, future: [] };
}

export function undone<Thing>(history: History<Thing>): History<Thing> {
  const step = history.past.at(-1);
  if (step === undefined) return history;
  const future = [{ what: step.what, thing: history.present }, ...history.future];
  return { past: history.past.slice(0, -1), present: step.thing, future };
}

export function redone<Thing>(history: History<Thing>): History<Thing> {
  const step = history.future[0];
  if (step === undefined) return history;
  const past = [...history.past, { what: step.what, thing: history.present }];
  return { past, present: step.thing, future: history.future.slice(1) };
}
