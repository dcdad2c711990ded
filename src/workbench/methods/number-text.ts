import { count } from "../../report/formats.ts";

const DIGITS = 7;
const LEAST_FIXED = 1e-4;
const MOST_FIXED = 1e7;

/** A computed number for reading: whole numbers whole, others with seven significant digits. */
export function numberText(value: number): string {
  return inDigits(value, DIGITS);
}

/** A number with all digits that tell it from its neighbours. */
export function allDigits(value: number): string {
  return String(value).replace("-", "\u2212");
}

function inDigits(value: number, digits: number): string {
  if (Number.isInteger(value)) return Math.abs(value) < 1e15 ? count(value) : allDigits(value);
  const size = Math.abs(value);
  if (size < LEAST_FIXED || size >= MOST_FIXED) return withPower(value.toPrecision(digits - 2));
  return allDigits(Number(value.toPrecision(digits)));
}

/** `1.23e-5` as `1.23 × 10⁻⁵`. */
function withPower(text: string): string {
  const [digits = text, power] = Number(text).toExponential().split("e");
  if (power === undefined) return text;
  const raised = [...power.replace("+", "")].map((sign) => RAISED[sign] ?? sign).join("");
  return `${digits.replace("-", "\u2212")}\u00a0×\u00a010${raised}`;
}

const RAISED: Readonly<Record<string, string>> = {
  "-": "⁻",
  "0": "⁰",
  "1": "¹",
  "2": "²",
  "3": "³",
  "4": "⁴",
  "5": "⁵",
  "6": "⁶",
  "7": "⁷",
  "8": "⁸",
  "9": "⁹",
};
