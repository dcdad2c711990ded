import { type Note, note } from "../../core/note.ts";
import { noninferiority } from "../../methods/comparison/noninferiority.ts";
import { paired } from "../../methods/comparison/paired.ts";
import { unpaired } from "../../methods/comparison/unpaired.ts";
import type { Study } from "../../records/study.ts";
import type { ComparedPeople } from "../compared-people.ts";
import type { Comparison } from "../document.ts";
import { MEASURES } from "../measures.ts";
import { notesUnder } from "../notes.ts";
import type { Worktop } from "../worktop.ts";
import { sensitivitySpecificity } from "./two-measures.ts";

type Planned = Pick<Study["comparisons"][number], "margin" | "kind" | "source" | "entered_on">;
type Measure = Comparison["measures"][number];
type Judged = Pick<Measure, "margin"> & { readonly notes: readonly Note[] };
/** What the method of margins takes: paired counts or two groups. */
type Held = Pick<Parameters<typeof noninferiority.run>[0], "paired" | "unpaired">;

const OF_STATUS = { sensitivity: "positive", specificity: "negative" } as const;

/** The same people on both sides: Tango's interval and the mid-p test on those who differ. */
export function measuresOfSame(worktop: Worktop, counted: ComparedPeople, planned: Planned): Measure[] {
  return MEASURES.map((measure): Measure => {
    const counts = counted.onBoth[OF_STATUS[measure]];
    const { values, notes } = worktop.compute(paired, counts, {
      ...worktop.interval,
      differenceInterval: "tango",
    });
    const judged = judge(worktop, { paired: counts }, planned);
    return {
      measure,
      first: values.first,
      second: values.second,
      paired: { ...counts },
      difference: values.difference,
      ratio: values.ratio,
      pValue: values.mcNemar.midP,
      interval: "tango",
      test: "mid_p",
      margin: judged.margin,
      notes: [...inOwnWords(notesUnder(notes, { ...NAMES, mcNemar: "pValue" })), ...judged.notes],
    };
  });
}

/** Different people: Miettinen and Nurminen's interval and Fisher's exact test. */
export function measuresOfDifferent(worktop: Worktop, counted: ComparedPeople, planned: Planned): Measure[] {
  const { first, second } = counted.onOne;
  const [one, other] = [sensitivitySpecificity(worktop, first), sensitivitySpecificity(worktop, second)];
  return MEASURES.map((measure): Measure => {
    const groups = { first: shareOf(one[measure]), second: shareOf(other[measure]) };
    const { values, notes } = worktop.compute(unpaired, groups, {
      ...worktop.interval,
      differenceInterval: "miettinen_nurminen",
    });
    const judged = judge(worktop, { unpaired: groups }, planned);
    return {
      measure,
      first: values.first,
      second: values.second,
      paired: null,
      difference: values.difference,
      ratio: values.ratio,
      pValue: values.fisher.twoSided,
      interval: "miettinen_nurminen",
      test: "fisher",
      margin: judged.margin,
      notes: [...inOwnWords(notesUnder(notes, { ...NAMES, fisher: "pValue" })), ...judged.notes],
    };
  });
}

const NAMES = { first: "first", second: "second", difference: "difference", ratio: "ratio" };

function shareOf({ count, total }: { readonly count: number; readonly total: number }) {
  return { count, total };
}

/** The margin, if one was stated: by the interval of the difference at the study's level. */
function judge(worktop: Worktop, held: Held, { margin, kind, source, entered_on }: Planned): Judged {
  if (margin === undefined) return { margin: null, notes: [] };
  const { values, notes } = worktop.compute(
    noninferiority,
    { ...held, margin, direction: "higher_is_better" },
    { alpha: (1 - worktop.interval.level) / 2 },
  );
  const { verdict, pValue } = values[kind];
  return {
    margin: { margin, kind, verdict, pValue, source: source ?? "", enteredOn: entered_on ?? null },
    notes: notesUnder(notes, { [kind]: "margin" }),
  };
}

/** The methods speak of reactive people; here the counts are of right results. */
const OWN_WORDS: Readonly<Record<string, string>> = {
  not_estimable: "nobody was right on either side: 0 divided by 0",
  unbounded: "nobody was right on the second side: the ratio is infinite",
  no_log_interval:
    "nobody differs, or nobody was right on the first side: the ratio has no interval, read the difference",
};

function inOwnWords(notes: readonly Note[]): Note[] {
  return notes.map((entry) => {
    const words = entry.path.startsWith("ratio") ? OWN_WORDS[entry.code] : undefined;
    return words === undefined ? entry : note(entry.code, entry.path, words);
  });
}
