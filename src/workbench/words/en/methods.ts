import { count } from "../../../report/formats.ts";

/** Words of the part in which any method of the catalogue is asked. */
export const methods = {
  title: "Methods",
  over: "The catalogue of methods",
  heading: "Ask any method by itself",
  sub: "Every number of a report, a plan or a page of algorithms comes from one of these. Each has worked examples to begin with.",
  areas: {
    proportion: "Single proportions and their intervals",
    accuracy: "Accuracy",
    predictive: "What a result means",
    strata: "Strata",
    comparison: "Two kits",
    clusters: "People who are alike",
    agreement: "Agreement",
    decision: "Decisions",
    prevalence: "Prevalence",
    planning: "Planning a study",
    algorithms: "Testing algorithms",
    reference: "A reference that errs",
    verification: "People without a reference result",
  } as Readonly<Record<string, string>>,
  find: "Find a method",
  found: (methods: number) => `${count(methods)} ${methods === 1 ? "method" : "methods"}`,
  status: (methods: number) => `${count(methods)} to ask`,
  open: (title: string) => `open: ${title}`,
  all: "All methods",
  start: "Begin with",
  examples: "Worked examples",
  example: (name: string) => `Worked example: ${name}`,
  empty: "An empty form",
  changed: "Not one of the worked examples.",
  isExample: (names: readonly string[]) =>
    `As in the worked example ${names.map((name) => `“${name}”`).join(" and ")}.`,
  input: "What is asked",
  options: "Options",
  noInput: "Choose a worked example to see the method at work, or begin with an empty form.",
  compute: "Compute",
  faultsFirst: (faults: number) =>
    faults === 1
      ? "One field is still to be filled or mended."
      : `${count(faults)} fields are still to be filled or mended.`,
  result: "Result",
  none: "Not computed yet.",
  earlier: "Of what was asked before the last change.",
  announced: "The result stands.",
  refused: (message: string) => `That can't be computed: ${message}`,
  values: "Values",
  value: "Value",
  interval: "Limits",
  meaning: "Meaning",
  name: "Name",
  absent: "not to be had",
  openSide: "no limit",
  more: (more: number) => `and ${count(more)} more`,
  truth: (value: boolean) => (value ? "yes" : "no"),
  notes: "Notes",
  expected: {
    summary: (agreeing: number, of: number) =>
      agreeing === of
        ? `As the worked example says: ${of === 1 ? "its number agrees" : `all ${count(of)} numbers agree`}`
        : `${count(agreeing)} of the worked example’s ${count(of)} numbers agree`,
    caption: "Expected and computed",
    path: "Value",
    expected: "Expected",
    computed: "Computed",
    agrees: "agrees",
    differs: "differs",
    verdict: "Held together",
    within: (tolerance: { readonly relative: number } | { readonly decimals: number }) =>
      "relative" in tolerance
        ? `Held to a relative difference of ${String(tolerance.relative).replace("-", "\u2212")}.`
        : `Held to the ${tolerance.decimals} decimals that are printed.`,
    source: (source: string) => `Source: ${source.replace(/\.$/, "")}.`,
    recomputed: (by: string) => `Recomputed by ${by}.`,
    memory: "Cited from memory, not yet checked in the source.",
  },
  about: "About the method",
  steps: {
    opened: (title: string) => `open the method “${title}”`,
    closed: "go back to the list of methods",
    example: (title: string) => `take a worked example of “${title}”`,
    emptied: (title: string) => `begin “${title}” with an empty form`,
    edited: (title: string, field: string) => `edit “${title}”: ${field}`,
  },
};
