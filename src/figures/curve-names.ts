import type { Predictive } from "../evaluation/document.ts";
import { LIGHT_INKS } from "./inks.ts";
import { CURVE_HEIGHT, CURVE_WIDTH, type Domain, pixel } from "./prevalence-scale.ts";
import type { Layer } from "./specification.ts";
import type { ChartWords } from "./words.ts";

interface CurveName {
  readonly words: string;
  readonly x: number;
  readonly y: number;
  readonly align: "left" | "right";
  readonly color: string;
}

const ROOM = 46;

/** The name of each curve beside it, where there is room: direct labels instead of a legend. */
export function curveNames(curve: Predictive["curve"], domain: Domain, words: ChartWords): Layer[] {
  const names = [ppvName(curve, domain, words.ppv), npvName(curve, domain, words.npv)];
  return names
    .filter((name) => name !== null)
    .map(
      (name): Layer => ({
        data: { values: [{ words: name.words }] },
        mark: {
          type: "text",
          align: name.align,
          baseline: "alphabetic",
          color: name.color,
          fontSize: 13,
          fontWeight: 600,
        },
        encoding: { x: { value: name.x }, y: { value: name.y }, text: { field: "words" } },
      }),
    );
}

/** Left of the rising curve at half height; under its beginning where it begins too high. */
function ppvName(curve: Predictive["curve"], domain: Domain, text: string): CurveName | null {
  const first = curve.find(({ ppv }) => ppv.value !== null);
  if (first === undefined) return null;
  const crossing = curve.find(({ ppv }) => (ppv.upper ?? ppv.value ?? 0) >= 0.52);
  const x = crossing === undefined ? CURVE_WIDTH : pixel(crossing.prevalence, domain) - 10;
  const common = { words: text, color: LIGHT_INKS.deep };
  if (x >= ROOM) return { ...common, x, y: CURVE_HEIGHT * 0.5 - 4, align: "right" };
  const floor = Math.max(0.12, first.ppv.lower ?? first.ppv.value ?? 0);
  return { ...common, x: 10, y: CURVE_HEIGHT * (1 - floor) + 20, align: "left" };
}

/** Under the beginning of the falling curve, or under its end where the other curve is in the way. */
function npvName(curve: Predictive["curve"], domain: Domain, text: string): CurveName | null {
  const last = curve.findLast(({ npv }) => npv.value !== null);
  if (last === undefined) return null;
  const common = { words: text, color: LIGHT_INKS.ink };
  const start = curve.filter((point) => pixel(point.prevalence, domain) <= ROOM + 10);
  const floor = Math.min(...start.map(({ npv }) => npv.lower ?? npv.value ?? 1));
  const inTheWay = start.some(({ ppv }) => (ppv.upper ?? ppv.value ?? 0) > floor - 0.12);
  if (!inTheWay) return { ...common, x: 10, y: CURVE_HEIGHT * (1 - floor) + 18, align: "left" };
  const end = last.npv.lower ?? last.npv.value ?? 1;
  return {
    ...common,
    x: pixel(last.prevalence, domain) - 4,
    y: CURVE_HEIGHT * (1 - end) + 18,
    align: "right",
  };
}
