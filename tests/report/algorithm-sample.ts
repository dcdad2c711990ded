import { readFileSync } from "node:fs";
import { join } from "node:path";
import * as v from "valibot";
import { parse } from "yaml";
import type { Algorithms } from "../../src/evaluation/algorithm/document.ts";
import { evaluateAlgorithms } from "../../src/evaluation/algorithm/evaluate-algorithms.ts";
import { AlgorithmFileSchema } from "../../src/records/algorithm/algorithm-schema.ts";
import { renderAlgorithms } from "../../src/report/algorithm/render-algorithm.tsx";
import { HOSTILE } from "./sample-evaluation.ts";

/** Files of algorithms to look at: the example, and what a user may write that is smaller, bolder or hostile. */
const EXAMPLE = readFileSync(join(import.meta.dirname, "../../data/algorithm/algorithm.yaml"), "utf8");
const INPUTS = [{ name: "algorithm.yaml", bytes: EXAMPLE.length, sha256: "0".repeat(64) }];

type Draft = v.InferInput<typeof AlgorithmFileSchema>;

function reckoned(change: (draft: Draft) => Draft): Algorithms {
  const draft = v.parse(AlgorithmFileSchema, parse(EXAMPLE));
  return evaluateAlgorithms(v.parse(AlgorithmFileSchema, { ...change(draft), draws: 1000 }), INPUTS);
}

const known = new Map<string, Algorithms>();
function once(name: string, make: () => Algorithms): Algorithms {
  const found = known.get(name) ?? make();
  known.set(name, found);
  return found;
}

/** The example file as it stands, but for fewer draws. */
export const exampleAlgorithms = () => once("example", () => reckoned((draft) => draft));

const hbsagOnly = (draft: Draft): Draft => ({
  ...draft,
  analytes: draft.analytes.slice(0, 1),
  kits: draft.kits
    .filter(({ analytes }) => Object.hasOwn(analytes, "hbsag"))
    .map((kit) => ({
      ...kit,
      analytes: { hbsag: kit.analytes.hbsag as NonNullable<typeof kit.analytes.hbsag> },
    })),
  channels: draft.channels.map((channel) => ({
    ...channel,
    prevalence: { hbsag: channel.prevalence.hbsag as NonNullable<typeof channel.prevalence.hbsag> },
  })),
  algorithms: draft.algorithms.filter(({ analyte }) => analyte === "hbsag"),
  observed: [],
});

/** One kit, one channel, nobody tested twice: no dependence, no target, no search, no prices worth a word. */
export const singleAlgorithms = () =>
  once("single", () =>
    reckoned((draft) => {
      const { dependence, search, targets, costs, ...rest } = hbsagOnly(draft);
      return {
        ...rest,
        kits: rest.kits.slice(0, 1).map((kit) => ({ ...kit, price: { value: 0 } })),
        channels: rest.channels.slice(0, 1),
        algorithms: [{ id: "alone", title: "Kit Q alone", analyte: "hbsag", preset: "single", kits: ["Q"] }],
      };
    }),
  );

/** Independence named in the file. */
export const independentAlgorithms = () =>
  once("independent", () =>
    reckoned((draft) => {
      const { search, ...rest } = hbsagOnly(draft);
      return {
        ...rest,
        dependence: { kind: "independent" },
        algorithms: rest.algorithms.map((algorithm) => ({ ...algorithm, retest_after: undefined })),
      };
    }),
  );

/** One effect that all kits share. */
export const sharedAlgorithms = () =>
  once("shared", () =>
    reckoned((draft) => {
      const { search, ...rest } = hbsagOnly(draft);
      return {
        ...rest,
        dependence: {
          kind: "shared",
          positive: 0.5,
          negative: 0.8,
          same_kit: { positive: 1, negative: 1 },
        },
      };
    }),
  );

/** Titles that try to be markup. */
export const hostileAlgorithms = () =>
  once("hostile", () =>
    reckoned((draft) => {
      const { search, ...rest } = draft;
      return {
        ...rest,
        title: HOSTILE,
        analytes: draft.analytes.map((analyte) => ({ ...analyte, title: `${HOSTILE}${analyte.id}` })),
        kits: draft.kits.map((kit) => ({ ...kit, title: `${HOSTILE}${kit.id}` })),
        channels: draft.channels.map((channel) => ({ ...channel, title: `${HOSTILE}${channel.id}` })),
        algorithms: draft.algorithms.map((one) => ({ ...one, title: `${HOSTILE}${one.id}` })),
        costs: { ...draft.costs, unit: HOSTILE },
      };
    }),
  );

export const FILES: Readonly<Record<string, () => Algorithms>> = {
  example: exampleAlgorithms,
  single: singleAlgorithms,
  independent: independentAlgorithms,
  shared: sharedAlgorithms,
  hostile: hostileAlgorithms,
};

const pages = new Map<string, Promise<string>>();
/** The page of a file; drawn once for each name. */
export function algorithmPageOf(name: string): Promise<string> {
  const found = pages.get(name) ?? renderAlgorithms((FILES[name] ?? exampleAlgorithms)());
  pages.set(name, found);
  return found;
}
