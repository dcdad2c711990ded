import { textWidth, wrapText } from "../../figures/measure-text.ts";
import type { Study } from "../../records/study.ts";
import type { FigureWords } from "./words.ts";

export type Algorithm = NonNullable<Study["analytes"][number]["reference"]["algorithm"]>;
type Step = Algorithm[number];
type Result = keyof Step["leads_to"];
type TreeWords = FigureWords["referenceTree"];
type Status = keyof TreeWords["statuses"];

export const TREE = { padding: 10, line: 15, text: 12, stub: 12, label: 10.5, labelLine: 12 } as const;

/** From one row's middle to the next, where both are words. */
const ROW = 36;
/** From a row's middle to its lower edge. */
const HALF_ROW = 9;
/** Between a box and what stands above it: a label must fit. */
const GAP = 16;
const WIDEST_BOX = 142;

export interface TreeBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly lines: readonly string[];
  readonly notes: readonly string[];
}

export interface TreeLeaf {
  readonly x: number;
  readonly y: number;
  readonly words: string;
  readonly status: Status | "elsewhere";
}

interface TreeLabel {
  readonly x: number;
  /** Baseline of the last line, just above the branch. */
  readonly y: number;
  readonly lines: readonly string[];
}

export interface TreeLayout {
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly TreeBox[];
  readonly leaves: readonly TreeLeaf[];
  readonly labels: readonly TreeLabel[];
  readonly paths: readonly string[];
}

const ORDER: readonly Result[] = ["reactive", "greyzone", "indeterminate", "failed", "nonreactive"];
const STATUSES = new Set(["positive", "negative", "indeterminate"]);

/** Results that lead to the same place share a branch. */
export function branchesOf(step: Step): { results: Result[]; target: string }[] {
  const branches: { results: Result[]; target: string }[] = [];
  for (const result of ORDER) {
    const target = step.leads_to[result];
    if (target === undefined) continue;
    const same = branches.find((branch) => branch.target === target);
    if (same === undefined) branches.push({ results: [result], target });
    else same.results.push(result);
  }
  return branches;
}

/** An algorithm as a tree from left to right; an assay reached twice is drawn once and named again. */
export function layOutTree(algorithm: Algorithm, words: TreeWords): TreeLayout {
  const tree = new Tree(algorithm, words);
  const first = algorithm[0];
  if (first !== undefined) tree.step(first, 0, -GAP);
  return tree.layout();
}

interface DrawnBranch {
  readonly target: string;
  readonly lines: readonly string[];
}

class Tree {
  readonly #algorithm: Algorithm;
  readonly #words: TreeWords;
  readonly #boxWidth: number;
  readonly #drawn = new Set<string>();
  readonly #boxes: TreeBox[] = [];
  readonly #leaves: TreeLeaf[] = [];
  readonly #labels: TreeLabel[] = [];
  readonly #paths: string[] = [];

  constructor(algorithm: Algorithm, words: TreeWords) {
    this.#algorithm = algorithm;
    this.#words = words;
    const names = algorithm.map((step) => textWidth(assayWords(step.assay), TREE.text, "bold"));
    const notes = algorithm.map((step) => textWidth(words.several[step.several], TREE.label));
    this.#boxWidth = Math.ceil(Math.min(WIDEST_BOX, Math.max(70, ...names, ...notes) + 2 * TREE.padding + 2));
  }

  /** Draws an assay and all that follows, below `above`. Returns the middle of its box and the lowest edge. */
  step(step: Step, x: number, above: number): { middle: number; bottom: number } {
    this.#drawn.add(step.assay);
    const box = this.#box(step, x, above);
    const middle = box.y + box.height / 2;
    const branches = branchesOf(step).map(
      (branch): DrawnBranch => ({
        target: branch.target,
        lines: this.#labelOf(branch.results),
      }),
    );
    const widest = Math.max(
      0,
      ...branches.flatMap(({ lines }) => lines.map((line) => textWidth(line, TREE.label))),
    );
    const spine = x + box.width + TREE.stub;
    const end = Math.ceil(spine + widest + 18);
    let bottom = middle - ROW;
    let last = middle;
    for (const { target, lines } of branches) {
      const drawn = this.#follow(target, end, bottom, last === middle && bottom < middle ? middle : null);
      this.#labels.push({ x: spine + 6, y: drawn.middle - 4, lines });
      this.#paths.push(`M${spine} ${drawn.middle}H${end - 4}`);
      last = drawn.middle;
      bottom = drawn.bottom;
    }
    this.#paths.push(`M${x + box.width} ${middle}H${spine}V${last}`);
    return { middle, bottom: Math.max(bottom, box.y + box.height) };
  }

  /** Draws where a branch leads: on the middle given, or else below `above`. */
  #follow(target: string, x: number, above: number, on: number | null): { middle: number; bottom: number } {
    const step = this.#algorithm.find((one) => one.assay === target);
    if (step !== undefined && !STATUSES.has(target) && !this.#drawn.has(target)) {
      return this.step(step, x, on === null ? above : on - this.#chainHeight(step) / 2 - GAP);
    }
    const middle = on ?? above + ROW - HALF_ROW;
    const known = STATUSES.has(target);
    this.#leaves.push({
      x,
      y: middle,
      words: known ? this.#words.statuses[target as Status] : this.#words.above(assayWords(target)),
      status: known ? (target as Status) : "elsewhere",
    });
    return { middle, bottom: middle + HALF_ROW };
  }

  #linesOf(step: Step): Pick<TreeBox, "lines" | "notes"> {
    const inner = this.#boxWidth - 2 * TREE.padding;
    const several = this.#words.several[step.several];
    return {
      lines: wrapText(assayWords(step.assay), inner, TREE.text, "bold"),
      notes: several === "" ? [] : wrapText(several, inner, TREE.label),
    };
  }

  #heightOf(step: Step): number {
    const { lines, notes } = this.#linesOf(step);
    return (lines.length + notes.length) * TREE.line + 13;
  }

  /** The highest box among those that stand on one straight way: a step and the first step after each. */
  #chainHeight(step: Step, seen: ReadonlySet<string> = this.#drawn): number {
    const target = branchesOf(step)[0]?.target;
    const next = this.#algorithm.find((one) => one.assay === target);
    const passed = new Set([...seen, step.assay]);
    const own = this.#heightOf(step);
    return next === undefined || passed.has(next.assay)
      ? own
      : Math.max(own, this.#chainHeight(next, passed));
  }

  /** One result a line: above a branch there is room for several. */
  #labelOf(results: readonly Result[]): string[] {
    return results.map(
      (result, index) => this.#words.results[result] + (index < results.length - 1 ? "," : ""),
    );
  }

  #box(step: Step, x: number, above: number): TreeBox {
    const height = this.#heightOf(step);
    const y = Math.round((above + GAP + (this.#chainHeight(step) - height) / 2) * 2) / 2;
    const box = { x, y, width: this.#boxWidth, height, ...this.#linesOf(step) };
    this.#boxes.push(box);
    return box;
  }

  layout(): TreeLayout {
    const ends = [
      ...this.#boxes.map((box) => box.y + box.height),
      ...this.#leaves.map((leaf) => leaf.y + 10),
    ];
    const widths = [
      ...this.#boxes.map((box) => box.x + box.width),
      ...this.#leaves.map((leaf) => leaf.x + 16 + textWidth(leaf.words, TREE.text, "bold")),
    ];
    return {
      width: Math.ceil(Math.max(0, ...widths)),
      height: Math.ceil(Math.max(0, ...ends)),
      boxes: this.#boxes,
      leaves: this.#leaves,
      labels: this.#labels,
      paths: this.#paths,
    };
  }
}

/** Assay names are written without spaces in the study file. */
function assayWords(name: string): string {
  return name.replaceAll("_", " ");
}
