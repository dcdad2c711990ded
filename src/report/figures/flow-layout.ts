import type { Flow } from "../../evaluation/document.ts";
import { textWidth, wrapText } from "../../figures/measure-text.ts";
import { count } from "../formats.ts";
import { FIGURE_WORDS } from "./words.ts";

export type FlowWords = typeof FIGURE_WORDS.flow;

/** One line of words with its number. */
export interface FlowRow {
  readonly lines: readonly string[];
  readonly people: number;
  readonly rank: "main" | "note";
}

export interface FlowBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly rows: readonly FlowRow[];
  readonly empty: boolean;
}

/** People who leave the way, with reasons; no box, the number before the words. */
export interface FlowList {
  /** Right edge of the numbers; the words begin `FLOW.beside` further right. */
  readonly x: number;
  /** Baseline of the first line. */
  readonly y: number;
  readonly rows: readonly FlowRow[];
}

export interface FlowLayout {
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly FlowBox[];
  readonly lists: readonly FlowList[];
  /** SVG paths of the connecting rules. */
  readonly paths: readonly string[];
}

export const FLOW = {
  width: 720,
  column: 224,
  gap: 24,
  /** From a box's left edge to the rule that leaves it. */
  spine: 18,
  padding: 12,
  line: 16,
  text: 12,
  /** Between the numbers of a list and its words. */
  beside: 8,
} as const;

const SIDE = FLOW.column + FLOW.gap;
const BRANCHES = ["reactive", "nonreactive", "invalid"] as const;
/** Reasons that the boxes above the table have already told. */
const TOLD = new Set(["rapid_not_done", "reference_not_done", "reference_indeterminate"]);

type Item = readonly [words: string, people: number];

/** Where everything of a flow diagram stands, in pixels: three columns, one way down, exclusions to the right. */
export function layOutFlow(flow: Flow, words: FlowWords = FIGURE_WORDS.flow): FlowLayout {
  const sheet = new Sheet();
  const enrolled = sheet.box(0, 0, [[words.enrolled, flow.enrolled]]);
  const before = flow.before.map(({ reason, people }): Item => [words.reason(reason), people]);
  const eligible = sheet.step(enrolled, withTotal(words.leftBefore, before), [
    [words.eligible, flow.eligible],
  ]);
  const notDone: Item[] = flow.rapidNotDone > 0 ? [[words.rapidNotDone, flow.rapidNotDone]] : [];
  const notes: Item[] = [
    [words.firstInvalid, flow.firstInvalid],
    [words.outsideWindow, flow.outsideWindow.people],
  ];
  const tested = sheet.step(
    eligible,
    notDone,
    [[words.tested, flow.tested]],
    notes.filter(([, people]) => people > 0),
  );
  const ends = sheet.branches(
    tested,
    BRANCHES.map((rapid) => branchOf(flow, rapid, words)),
  );
  const setAside = flow.setAside
    .filter(({ reason }) => !TOLD.has(reason))
    .map(({ reason, people }): Item => [words.reason(reason), people]);
  sheet.join(ends, withTotal(words.setAside, setAside), [[words.analysed, flow.analysed]]);
  return sheet.layout();
}

interface Branch {
  readonly head: Item;
  readonly leaving: readonly Item[];
  readonly outcomes: readonly Item[];
}

function branchOf(flow: Flow, rapid: (typeof BRANCHES)[number], words: FlowWords): Branch {
  const branch = flow.branches.find((one) => one.rapid === rapid);
  const reference = branch?.reference ?? { positive: 0, negative: 0, indeterminate: 0, not_done: 0 };
  const leaving: Item[] = [
    [words.reference.not_done, reference.not_done],
    [words.reference.indeterminate, reference.indeterminate],
  ];
  return {
    head: [words.rapid[rapid], branch?.people ?? 0],
    leaving: leaving.filter(([, people]) => people > 0),
    outcomes: [
      [words.reference.positive, reference.positive],
      [words.reference.negative, reference.negative],
    ],
  };
}

/** Several reasons get their sum as a first line, a single one the title before it. */
function withTotal(title: string, items: readonly Item[]): Item[] {
  const total = items.reduce((sum, [, people]) => sum + people, 0);
  if (items.length > 1) return [[title, total], ...items];
  return items.map(([words, people]) => [`${title}: ${words}`, people]);
}

/** Collects boxes, lists and rules from top to bottom. */
class Sheet {
  readonly #boxes: FlowBox[] = [];
  readonly #lists: FlowList[] = [];
  readonly #paths: string[] = [];

  box(x: number, y: number, items: readonly Item[], notes: readonly Item[] = []): FlowBox {
    const inner = FLOW.column - 2 * FLOW.padding;
    const rows = [
      ...items.map((item) => row(item, "main", inner)),
      ...notes.map((item) => row(item, "note", inner)),
    ];
    const lines = rows.reduce((total, { lines }) => total + lines.length, 0);
    const height = lines * FLOW.line + 20;
    const box = { x, y, width: FLOW.column, height, rows, empty: items.every(([, people]) => people === 0) };
    this.#boxes.push(box);
    return box;
  }

  /** The next box below, with those who leave in between to the right. */
  step(
    from: FlowBox,
    leaving: readonly Item[],
    items: readonly Item[],
    notes: readonly Item[] = [],
  ): FlowBox {
    const bottom = from.y + from.height;
    const end = this.#side(from.x + FLOW.spine, bottom, leaving, SIDE);
    const next = this.box(from.x, end, items, notes);
    this.#arrow(from.x + FLOW.spine, bottom, next.y);
    return next;
  }

  /** Those who leave a way at `x` below `top`: a rule to the right and their list. Returns where the way may go on. */
  #side(x: number, top: number, leaving: readonly Item[], at: number): number {
    if (leaving.length === 0) return top + 30;
    const y = top + 24;
    const gutter = numbersWidth(leaving);
    const room = FLOW.width - at - gutter - FLOW.beside;
    const rows = leaving.map((item, index) => row(item, index === 0 ? "main" : "note", room, 0));
    this.#lists.push({ x: at + gutter, y: y + 4, rows });
    this.#paths.push(`M${x} ${y}H${at - 6}`);
    const lines = rows.reduce((total, { lines }) => total + lines.length, 0);
    return y + lines * FLOW.line + 12;
  }

  /** The ways by rapid result, side by side; their outcomes on one height. */
  branches(from: FlowBox, branches: readonly Branch[]): FlowBox[] {
    const bus = from.y + from.height + 18;
    const heads = branches.map((branch, index) => this.box(index * SIDE, bus + 22, [branch.head]));
    const spines = heads.map((head) => head.x + FLOW.spine);
    this.#arrow(from.x + FLOW.spine, from.y + from.height, bus + 22);
    this.#paths.push(`M${spines[0]} ${bus}H${spines.at(-1)}`);
    for (const x of spines.slice(1)) this.#arrow(x, bus, bus + 22);
    const ends = heads.map((head, index) => this.#leaving(head, branches[index]?.leaving ?? []));
    const level = Math.max(...ends);
    return heads.flatMap((head, index) => {
      if (head.empty) return [];
      this.#arrow(head.x + FLOW.spine, head.y + head.height, level);
      return [this.box(head.x, level, branches[index]?.outcomes ?? [])];
    });
  }

  #leaving(head: FlowBox, leaving: readonly Item[]): number {
    const x = head.x + FLOW.spine;
    const bottom = head.y + head.height;
    if (leaving.length === 0) return bottom + 30;
    const gutter = numbersWidth(leaving);
    const room = FLOW.column - FLOW.spine - 16 - gutter - FLOW.beside;
    const rows = leaving.map((item) => row(item, "note", room, 0));
    let y = bottom + 24;
    for (const one of rows) {
      this.#lists.push({ x: x + 16 + gutter, y: y + 4, rows: [one] });
      this.#paths.push(`M${x} ${y}h12`);
      y += one.lines.length * FLOW.line + 4;
    }
    return y + 8;
  }

  /** The ways come together in one box at the left. */
  join(ends: readonly FlowBox[], leaving: readonly Item[], items: readonly Item[]): void {
    const bottom = Math.max(0, ...this.#boxes.map((box) => box.y + box.height));
    const bus = bottom + 20;
    const start = ends[0];
    for (const end of ends) this.#paths.push(`M${end.x + FLOW.spine} ${end.y + end.height}V${bus}`);
    const last = ends.at(-1);
    if (last !== undefined) this.#paths.push(`M${FLOW.spine} ${bus}H${last.x + FLOW.spine}`);
    const end = this.#side(FLOW.spine, bus - 4, leaving, SIDE);
    const box = this.box(0, end, items);
    if (start !== undefined) this.#arrow(FLOW.spine, bus, box.y);
  }

  /** A rule down to a box, with a small open head. */
  #arrow(x: number, from: number, to: number): void {
    this.#paths.push(`M${x} ${from}V${to - 1}m-3.5 -5l3.5 5l3.5 -5`);
  }

  layout(): FlowLayout {
    const listEnds = this.#lists.map(
      (list) => list.y + list.rows.reduce((sum, { lines }) => sum + lines.length, 0) * FLOW.line,
    );
    const boxEnds = this.#boxes.map((box) => box.y + box.height);
    return {
      width: FLOW.width,
      height: Math.ceil(Math.max(...boxEnds, ...listEnds) + 1),
      boxes: this.#boxes,
      lists: this.#lists,
      paths: this.#paths,
    };
  }
}

/** Width of the widest number of a list. */
function numbersWidth(items: readonly Item[]): number {
  return Math.ceil(Math.max(...items.map(([, people]) => textWidth(count(people), FLOW.text, "bold"))));
}

/** Words wrapped so that the number fits beside them. */
function row([words, people]: Item, rank: FlowRow["rank"], width: number, number?: number): FlowRow {
  const beside = number ?? textWidth(count(people), FLOW.text, "bold") + 12;
  return {
    lines: wrapText(words, width - beside, FLOW.text, rank === "main" ? "bold" : "normal"),
    people,
    rank,
  };
}
