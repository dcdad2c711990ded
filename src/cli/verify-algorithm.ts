import type { Algorithms } from "../evaluation/algorithm/document.ts";
import { readAlgorithms } from "../evaluation/algorithm/read.ts";
import { writeAlgorithms } from "../evaluation/algorithm/write.ts";
import { ALGORITHM_FILE } from "../records/algorithm/algorithm-file.ts";
import { readEmbeddedAlgorithms, renderAlgorithms } from "../report/algorithm/render-algorithm.tsx";
import { evaluateAlgorithmFile } from "./algorithm-file.ts";
import type { Progress } from "./progress.ts";
import { readBack, verifyDocument } from "./verify-document.ts";
import type { Findings } from "./verify-findings.ts";

const PAGE = {
  kind: "a page of algorithms",
  read: (html: string) => readAlgorithms(readEmbeddedAlgorithms(html)),
};

/** Whether a page says that it carries algorithms. */
export function isAlgorithmPage(html: string): boolean {
  return html.includes('<script type="application/json" id="algorithms">');
}

/** The algorithm file that a page was made from. */
export function algorithmFileOf(html: string): string {
  return readBack(html, PAGE).provenance.inputs[0]?.name ?? ALGORITHM_FILE;
}

/**
 * Holds a page of algorithms against itself and, where a folder is given, against the algorithm file in it,
 * evaluated anew.
 * @throws Refusal when there is no readable algorithms document in the page, or the file can't be read
 */
export function verifyAlgorithm(html: string, folder: string | null, progress: Progress): Promise<Findings> {
  const makeAnew = async (within: string, made: Algorithms): Promise<Algorithms> => {
    const name = made.provenance.inputs[0]?.name ?? ALGORITHM_FILE;
    const evaluated = await evaluateAlgorithmFile({ folder: within, name }, progress);
    return readAlgorithms(JSON.parse(writeAlgorithms(evaluated)));
  };
  const verified = {
    ...PAGE,
    draw: (made: Algorithms) => renderAlgorithms(made),
    anew: folder === null ? null : (made: Algorithms) => makeAnew(folder, made),
  };
  return verifyDocument(html, verified, progress);
}
