import { type Note, note } from "../../core/note.ts";
import type { Dependence } from "./fields.ts";
import type { Step } from "./model.ts";
import type { OutcomesValues } from "./outcomes-fields.ts";
import type { PathPlan } from "./path-outcomes.ts";

/** What to mind with an algorithm's outcomes, and why a value is absent. */
export function outcomeNotes(plan: PathPlan, dependence: Dependence, values: OutcomesValues): Note[] {
  return [
    ...independenceNotes(plan, dependence),
    ...tieBreakNotes(plan),
    ...retestNotes(plan),
    ...absentNotes(values),
  ];
}

function independenceNotes({ paths, kits, retest }: PathPlan, { kind }: Dependence): Note[] {
  if (kind !== "independent") return [];
  const several = paths.some(({ parts }) => parts.filter(({ result }) => result !== "invalid").length > 1);
  const returning = retest !== null && paths.some(({ status }) => status === "inconclusive");
  if (!several && !returning) return [];
  const assumed = note(
    "independence_assumed",
    "net",
    "given the truth, all runs are taken to err independently; if errors go together, predictive values are mostly worse than shown",
  );
  const repeated = kits.filter((_, kit) =>
    paths.some(
      ({ parts }) => parts.filter((part) => part.kit === kit && part.result !== "invalid").length > 1,
    ),
  );
  if (repeated.length === 0 && !returning) return [assumed];
  const which = returning
    ? "people who return get the same kits again"
    : `one person may get two valid runs of ${repeated.map(({ id }) => id).join(", ")}`;
  return [
    assumed,
    note(
      "repeat_taken_as_independent",
      "net",
      `${which}, and even those are taken to err independently, which two runs of one kit hardly ever do`,
    ),
  ];
}

/** A positive status although a result on the path was non-reactive is never given in silence. */
function tieBreakNotes({ paths, steps }: PathPlan): Note[] {
  const over = paths.filter(
    ({ status, parts }) => status === "positive" && parts.some(({ result }) => result === "nonreactive"),
  );
  if (over.length === 0) return [];
  const ways = over.map(({ parts }) =>
    parts.map(({ step, result }) => `${(steps[step] as Step).id} ${WORDS[result]}`).join(", "),
  );
  const shown = ways.slice(0, 3).join("; ");
  const more = ways.length > 3 ? `; and ${ways.length - 3} more` : "";
  return [
    note(
      "positive_despite_nonreactive",
      "paths",
      `people with a non-reactive result end positive: ${shown}${more}`,
    ),
  ];
}

const WORDS = { reactive: "reactive", nonreactive: "non-reactive", invalid: "invalid" } as const;

function retestNotes({ paths, retest }: PathPlan): Note[] {
  if (retest === null || paths.some(({ status }) => status === "inconclusive")) return [];
  return [note("nobody_inconclusive", "secondPass", "no path ends inconclusive, so that nobody is retested")];
}

function absentNotes({ net, at, independent }: OutcomesValues): Note[] {
  const found: Note[] = [];
  const undecided = (value: number | null, path: string, who: string) => {
    if (value !== null) return;
    found.push(note("never_decided", path, `no ${who} person ends positive or negative`));
  };
  undecided(net.sensitivityDecided, "net.sensitivityDecided", "diseased");
  undecided(net.specificityDecided, "net.specificityDecided", "nondiseased");
  undecided(independent.net.sensitivityDecided, "independent.net.sensitivityDecided", "diseased");
  undecided(independent.net.specificityDecided, "independent.net.specificityDecided", "nondiseased");
  for (const [where, points] of [
    ["at", at],
    ["independent.at", independent.at],
  ] as const) {
    for (const [value, status] of [
      ["ppv", "positive"],
      ["npv", "negative"],
    ] as const) {
      const absent = points.flatMap((point, index) => (point[value] === null ? [index] : []));
      if (absent.length === 0) continue;
      const path = absent.length === points.length ? where : `${where}.${absent[0]}.${value}`;
      const times = absent.length === 1 ? "" : ` (${absent.length} prevalences)`;
      found.push(note(`nobody_${status}`, path, `nobody ends ${status}: there is no ${value}${times}`));
    }
  }
  return found;
}
