import { SOFTWARE_VERSION } from "../core/version.ts";
import { differences } from "../evaluation/differences.ts";
import { failed } from "./io.ts";
import type { Progress } from "./progress.ts";
import { type Findings, inputFindings, type WithInputs } from "./verify-findings.ts";

/** A document of any of the pages: it says which version made it, and from what. */
interface Made extends WithInputs {
  readonly software: string;
}

/** How one kind of page is read back, drawn again, and made anew. */
export interface Verified<Document extends Made> {
  /** What a page is called that can't be read back. */
  readonly kind: string;
  readonly read: (html: string) => Document;
  readonly draw: (document: Document) => Promise<string>;
  /** The document made anew from its files, as it reads back; `null` where no folder was given. */
  readonly anew: ((document: Document) => Promise<Document>) | null;
}

/**
 * Holds a page against itself and, where its files are given, against a document made anew from them.
 * @throws Refusal when there is no readable document in the page, or its files can't be read
 */
export async function verifyDocument<Document extends Made>(
  html: string,
  verified: Verified<Document>,
  progress: Progress,
): Promise<Findings> {
  const document = readBack(html, verified);
  progress.step("drawing the page again");
  const page = await pageFinding(html, document, verified);
  progress.end();
  const software = { report: document.software, now: SOFTWARE_VERSION };
  if (verified.anew === null) {
    return { holds: page !== "different", software, page, inputs: null, numbers: null };
  }
  const anew = await verified.anew(document);
  const inputs = inputFindings(document, anew);
  const numbers = differences(withoutOrigin(document), withoutOrigin(anew));
  const holds =
    page !== "different" && numbers.length === 0 && inputs.every((input) => input.state === "unchanged");
  return { holds, software, page, inputs, numbers };
}

/** The document in a page. */
export function readBack<Document extends Made>(
  html: string,
  { kind, read }: Pick<Verified<Document>, "kind" | "read">,
): Document {
  try {
    return read(html);
  } catch (error) {
    throw failed(`not ${kind} that can be read back: ${(error as Error).message}`);
  }
}

/** Another version may have other words for the same numbers: no judgement then. */
async function pageFinding<Document extends Made>(
  html: string,
  document: Document,
  { draw }: Verified<Document>,
): Promise<Findings["page"]> {
  if ((await draw(document)) === html) return "same";
  return document.software === SOFTWARE_VERSION ? "different" : "other_version";
}

function withoutOrigin<Document extends Made>({
  software: _software,
  provenance: _provenance,
  ...rest
}: Document) {
  return rest;
}
