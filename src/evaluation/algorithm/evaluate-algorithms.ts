import { demand } from "../../core/check.ts";
import { SOFTWARE_VERSION } from "../../core/version.ts";
import type { AlgorithmFile } from "../../records/algorithm/algorithm-schema.ts";
import { digestOfFiles } from "../digest.ts";
import { type Algorithms, AlgorithmsSchema } from "./document.ts";
import { answerSection } from "./sections/answer.ts";
import { dependenceSection } from "./sections/dependence.ts";
import { frontierSection } from "./sections/frontier.ts";
import { notesOn } from "./sections/notes.ts";
import { observedSection } from "./sections/observed.ts";
import { outcomesSection } from "./sections/outcomes.ts";
import { predictiveSection } from "./sections/predictive.ts";
import { stockSection } from "./sections/stock.ts";
import { togetherSection } from "./sections/together.ts";
import { tornadoSection } from "./sections/tornado.ts";
import { uncertaintySection } from "./sections/uncertainty.ts";
import { algorithmWorktop } from "./worktop.ts";

/** A file that went in. The hash is the caller's business: SHA-256, 64 hexadecimal digits. */
export interface AlgorithmInput {
  readonly name: string;
  readonly bytes: number;
  readonly sha256: string;
}

/**
 * Everything that follows from a file of algorithms, as plain data in full precision: what each does with the people
 * of each channel, with the independent answer beside; how the dependence of the kits changes it; how sure it is;
 * which algorithm is best where; what it costs and how many kits it takes. Pure: the same file and inputs give the
 * same document, byte for byte.
 *
 * @param file   as read by `parseAlgorithm`, with `checkDependence` as its further check
 * @param inputs the algorithm file
 * @throws InputError where an algorithm can't be followed, or the dependence is not possible
 */
export function evaluateAlgorithms(file: AlgorithmFile, inputs: readonly AlgorithmInput[]): Algorithms {
  const worktop = algorithmWorktop(file);
  const outcomes = outcomesSection(worktop);
  const uncertainty = uncertaintySection(worktop);
  const answer = answerSection(worktop, outcomes, uncertainty);
  const dependence = dependenceSection(worktop);
  const sections = {
    answer,
    algorithms: [...worktop.followed],
    outcomes,
    predictive: predictiveSection(worktop),
    dependence,
    uncertainty,
    tornado: tornadoSection(worktop),
    frontier: frontierSection(worktop),
    stock: stockSection(worktop, outcomes),
    observed: observedSection(worktop),
    together: togetherSection(worktop, answer),
    notes: notesOn(file, answer, dependence, uncertainty),
  };
  const document = {
    format: "fourfold-algorithms",
    version: 1,
    software: SOFTWARE_VERSION,
    provenance: {
      inputs: inputs.map(({ name, bytes, sha256 }) => ({ name, bytes, sha256 })),
      fileSha256: digestOfFiles(inputs),
      methods: worktop.used(),
    },
    file,
    ...sections,
  };
  return demand(AlgorithmsSchema, document, "algorithms");
}
