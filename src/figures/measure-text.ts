/**
 * How wide words are, without a canvas, so that a layout is the same on every machine. The table
 * holds for each sign the larger advance of two free sans-serif fonts (DejaVu Sans 2.37 and
 * Liberation Sans 2.1, read with Pillow), in hundredths of the font size: a little too wide for
 * most systems, never much too narrow.
 */
const WIDTHS: Readonly<Record<number, string>> = {
  28: "'ijl",
  32: " ,.I",
  34: "/:;\\|",
  37: "-f",
  39: "()[]!t",
  43: "r",
  47: '"',
  51: "*J`",
  53: "sz",
  55: "c?L_",
  59: "kxvy",
  61: "FTaeo",
  64: "$0123456789bdghnpqu{}",
  68: "EKPSYABVXZ",
  74: "CRUN",
  78: "HD&G",
  80: "OQw",
  84: "#+<=>^~",
  88: "M",
  96: "%m",
  100: "W@",
};

const ADVANCE = new Map(
  Object.entries(WIDTHS).flatMap(([width, signs]) =>
    [...signs].map((sign) => [sign, Number(width)] as const),
  ),
);
/** Thin and no-break spaces, dashes. */
const OTHER: Readonly<Record<string, number>> = {
  "\u202f": 20,
  "\u00a0": 32,
  "\u2013": 56,
  "\u2026": 100,
  "\u00b7": 34,
};
const LETTER = 68;
/** Signs of scripts that fill a square: Chinese, Japanese, Korean and their punctuation. */
const SQUARE = /[\u1100-\u115f\u2e80-\u9fff\uac00-\ud7af\uf900-\ufaff\ufe30-\ufe4f\uff00-\uff60]/;
const BOLD = 1.11;

export type Weight = "normal" | "bold";

/** Width of one line of text, in the unit of the font size. */
export function textWidth(text: string, size: number, weight: Weight = "normal"): number {
  let hundredths = 0;
  for (const sign of text.normalize("NFC")) {
    hundredths += ADVANCE.get(sign) ?? OTHER[sign] ?? (SQUARE.test(sign) ? 100 : LETTER);
  }
  return (hundredths / 100) * size * (weight === "bold" ? BOLD : 1);
}

/**
 * Text cut into lines no wider than `width`: at spaces, and inside a word only where the word alone
 * is too wide. No-break spaces hold. Empty text gives no line.
 */
export function wrapText(text: string, width: number, size: number, weight: Weight = "normal"): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/[ \t\r\n]+/).filter((part) => part !== "")) {
    const longer = line === "" ? word : `${line} ${word}`;
    if (textWidth(longer, size, weight) <= width) {
      line = longer;
      continue;
    }
    if (line !== "") lines.push(line);
    const pieces = breakWord(word, width, size, weight);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1) ?? "";
  }
  if (line !== "") lines.push(line);
  return lines;
}

/** A word in pieces that fit; each holds at least one sign. */
function breakWord(word: string, width: number, size: number, weight: Weight): string[] {
  const pieces: string[] = [];
  let piece = "";
  for (const sign of word) {
    if (piece !== "" && textWidth(piece + sign, size, weight) > width) {
      pieces.push(piece);
      piece = "";
    }
    piece += sign;
  }
  return [...pieces, piece];
}
