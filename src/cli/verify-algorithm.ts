import { SOFTWARE_VERSION } from "../core/version.ts";
import type { Algorithms } from "../evaluation/algorithm/document.ts";
import { readAlgorithms } from "../evaluation/algorithm/read.ts";
import { writeAlgorithms } from "../evaluation/algorithm/write.ts";
import { differences } from "../evaluation/differences.ts";
import { ALGORITHM_FILE } from "../records/algorithm/algorithm-file.ts";
import { readEmbeddedAlgorithms, renderAlgorithms } from "../report/algorithm/render-algorithm.tsx";
import { evaluateAlgorithmFile } from "./algorithm-file.ts";
import { failed } from "./io.ts";
import type { Progress } from "./progress.ts";
import { type Findings, inputFindings } from "./verify-report.ts";

/** Whether a page says that it carries algorithms. */
export function isAlgorithmPage(html: string): boolean {
  return html.includes('<script type="application/json" id="algorithms">');
}

/** The algorithm file that a page was made from. */
export function algorithmFileOf(html: string): string {
  return embedded(html).provenance.inputs[0]?.name ?? ALGORITHM_FILE;
}

/**
 * Holds a page of algorithms against itself and, where a folder is given, against the algorithm file in it,
 * evaluated anew.
 * @throws Refusal when there is no readable algorithms document in the page, or the file can't be read
 */
export async function verifyAlgorithm(
  html: string,
  folder: string | null,
  progress: Progress,
): Promise<Findings> {
  const algorithms = embedded(html);
  progress.step("drawing the page again");
  const same = (await renderAlgorithms(algorithms)) === html;
  progress.end();
  const other = algorithms.software === SOFTWARE_VERSION ? "different" : "other_version";
  const page = same ? "same" : other;
  const software = { report: algorithms.software, now: SOFTWARE_VERSION };
  if (folder === null) return { holds: page !== "different", software, page, inputs: null, numbers: null };
  const name = algorithms.provenance.inputs[0]?.name ?? ALGORITHM_FILE;
  const evaluated = await evaluateAlgorithmFile({ folder, name }, progress);
  const anew = readAlgorithms(JSON.parse(writeAlgorithms(evaluated)));
  const inputs = inputFindings(algorithms, anew);
  const numbers = differences(withoutOrigin(algorithms), withoutOrigin(anew));
  const holds =
    page !== "different" && numbers.length === 0 && inputs.every((input) => input.state === "unchanged");
  return { holds, software, page, inputs, numbers };
}

function embedded(html: string): Algorithms {
  try {
    return readAlgorithms(readEmbeddedAlgorithms(html));
  } catch (error) {
    throw failed(`not a page of algorithms that can be read back: ${(error as Error).message}`);
  }
}

function withoutOrigin({ software: _software, provenance: _provenance, ...rest }: Algorithms) {
  return rest;
}
