import type { Answer } from "../../evaluation/document.ts";
import type { Shared } from "../context.ts";

/** A verdict is a word first, then a weight: bold; bold and underlined; italic. Never a colour. */
export function Verdict({ report, verdict }: { report: Shared; verdict: Answer["verdict"] }) {
  return <span class={`verdict ${verdict.replace("_", "-")}`}>{report.words.codes.verdicts[verdict]}</span>;
}
