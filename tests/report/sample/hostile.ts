import type { Evaluation } from "../../../src/evaluation/document.ts";
import { sampleEvaluation } from "../sample-evaluation.ts";

/** Every text of the document replaced by a hostile one; codes and hashes too. */
export const HOSTILE = `</script><script>alert(1)</script>"'><img src=x onerror=alert(2)>&amp;\u2028]]>`;

export function hostileEvaluation(): Evaluation {
  const keep = new Set(["format", "version", "role", "measure", "verdict", "direction", "importance"]);
  const spoil = (value: unknown, key: string): unknown => {
    if (typeof value === "string") return keep.has(key) ? value : spoilText(value, key);
    if (Array.isArray(value)) return value.map((item) => spoil(item, key));
    if (value === null || typeof value !== "object") return value;
    return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, spoil(inner, name)]));
  };
  return spoil(sampleEvaluation(), "") as Evaluation;
}

const FREE_TEXT =
  /^(title|source|discrepancies|registration|intended_use|page|funding|deviations|message|reason|rule|file|expected|received|column|lots|cluster|code|subjects|name|group|unit|site)$/;

function spoilText(text: string, key: string): string {
  return FREE_TEXT.test(key) ? `${text} ${HOSTILE}` : text;
}
