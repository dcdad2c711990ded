import { InputError } from "../core/input-error.ts";

/** What a page can carry as data. */
type Embedded = "evaluation" | "planning" | "algorithms" | "pooling";

const opening = (kind: Embedded) => `<script type="application/json" id="${kind}">`;
const CLOSING = "</script>";

/**
 * JSON that can stand inside a script element: no `<`, so that nothing closes the element or opens a
 * comment; no U+2028 or U+2029, which old parsers take for line ends. It reads back to the same value.
 */
export function embeddedJson(value: unknown): string {
  return JSON.stringify(value).replace(/[<\u2028\u2029]/g, (sign) => {
    return `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`;
  });
}

/** The script element that carries the evaluation. It is data: no browser runs it. */
export function embedEvaluation(value: unknown): string {
  return `${opening("evaluation")}${embeddedJson(value)}${CLOSING}`;
}

/** The same for a planning document. */
export function embedPlanning(value: unknown): string {
  return `${opening("planning")}${embeddedJson(value)}${CLOSING}`;
}

/** The same for an algorithms document. */
export function embedAlgorithms(value: unknown): string {
  return `${opening("algorithms")}${embeddedJson(value)}${CLOSING}`;
}

/** The same for a pooling document. */
export function embedPooling(value: unknown): string {
  return `${opening("pooling")}${embeddedJson(value)}${CLOSING}`;
}

/**
 * Takes the evaluation out of a report, as it was put in: not yet checked against its schema.
 *
 * @throws InputError where the page carries no evaluation, or a damaged one
 */
export function readEmbeddedEvaluation(html: string): unknown {
  return readEmbedded(html, "evaluation", "a report with an evaluation inside");
}

/**
 * Takes the planning document out of a plan's page, as it was put in: not yet checked against its schema.
 *
 * @throws InputError where the page carries none, or a damaged one
 */
export function readEmbeddedPlanning(html: string): unknown {
  return readEmbedded(html, "planning", "a study plan's page with the planning document inside");
}

/**
 * Takes the algorithms document out of an algorithm's page, as it was put in: not yet checked against its schema.
 *
 * @throws InputError where the page carries none, or a damaged one
 */
export function readEmbeddedAlgorithms(html: string): unknown {
  return readEmbedded(html, "algorithms", "a page of testing algorithms with the algorithms document inside");
}

/**
 * Takes the pooling document out of the page of pooled studies, as it was put in: not yet checked against its schema.
 *
 * @throws InputError where the page carries none, or a damaged one
 */
export function readEmbeddedPooling(html: string): unknown {
  return readEmbedded(html, "pooling", "a page of pooled studies with the pooling document inside");
}

function readEmbedded(html: string, kind: Embedded, expected: string): unknown {
  const start = html.lastIndexOf(opening(kind));
  if (start < 0) throw new InputError(["report"], expected, "a page without one");
  const from = start + opening(kind).length;
  const end = html.indexOf(CLOSING, from);
  try {
    return JSON.parse(html.slice(from, end < 0 ? undefined : end));
  } catch {
    throw new InputError(["report", kind], "JSON as it was written", html.slice(from, end));
  }
}
