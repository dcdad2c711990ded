import type { Pooling } from "../evaluation/pool/document.ts";
import { readPooling } from "../evaluation/pool/read.ts";
import { writePooling } from "../evaluation/pool/write.ts";
import { POOL_FILE } from "../records/pool/pool-file.ts";
import { readEmbeddedPooling, renderPool } from "../report/pool/render-pool.tsx";
import { evaluatePoolFile } from "./pool-file.ts";
import type { Progress } from "./progress.ts";
import { readBack, verifyDocument } from "./verify-document.ts";
import type { Findings } from "./verify-findings.ts";

const PAGE = {
  kind: "a page of pooled studies",
  read: (html: string) => readPooling(readEmbeddedPooling(html)),
};

/** Whether a page says that it carries pooled studies. */
export function isPoolPage(html: string): boolean {
  return html.includes('<script type="application/json" id="pooling">');
}

/** The pooling file that a page was made from. */
export function poolFileOf(html: string): string {
  return readBack(html, PAGE).provenance.inputs[0]?.name ?? POOL_FILE;
}

/**
 * Holds a page of pooled studies against itself and, where a folder is given, against the pooling file and its table
 * in it, evaluated anew.
 * @throws Refusal when there is no readable pooling document in the page, or the files can't be read
 */
export function verifyPool(html: string, folder: string | null, progress: Progress): Promise<Findings> {
  const makeAnew = async (within: string, made: Pooling): Promise<Pooling> => {
    const name = made.provenance.inputs[0]?.name ?? POOL_FILE;
    const evaluated = await evaluatePoolFile({ folder: within, name }, progress);
    return readPooling(JSON.parse(writePooling(evaluated)));
  };
  const verified = {
    ...PAGE,
    draw: (made: Pooling) => renderPool(made),
    anew: folder === null ? null : (made: Pooling) => makeAnew(folder, made),
  };
  return verifyDocument(html, verified, progress);
}
