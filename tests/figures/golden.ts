import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const FOLDER = join(import.meta.dirname, "golden");

/** Numbers to three decimals and one tag a line, so that differences can be read. */
function readable(markup: string): string {
  const rounded = markup.replace(/-?\d+\.\d{4,}(?:e-?\d+)?/g, (number) =>
    String(Math.round(Number(number) * 1000) / 1000),
  );
  return `${rounded.replaceAll("><", ">\n<")}\n`;
}

/**
 * Holds a drawing against its golden file: fit for layout, never for truth. Where they differ the new
 * drawing is written beside it as `…-changed.svg.txt` for review; to accept it, put it in the old one's
 * place. A drawing without a golden file is written as changed, and differs.
 *
 * @returns "same", or the first line that differs
 */
export function golden(name: string, markup: string): string {
  const file = join(FOLDER, `${name}.svg.txt`);
  const changed = join(FOLDER, `${name}-changed.svg.txt`);
  const drawn = readable(markup);
  const expected = existsSync(file) ? readFileSync(file, "utf8") : "";
  mkdirSync(FOLDER, { recursive: true });
  if (expected === drawn) {
    rmSync(changed, { force: true });
    return "same";
  }
  writeFileSync(changed, drawn);
  const lines = expected.split("\n");
  const at = drawn.split("\n").findIndex((line, index) => line !== lines[index]);
  return `see ${name}-changed.svg.txt, line ${at + 1}: ${drawn.split("\n")[at]}`;
}
