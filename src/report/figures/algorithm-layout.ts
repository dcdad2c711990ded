import { wrapText } from "../../figures/measure-text.ts";

/** What a step may find, in the order in which exits are drawn. */
export const RESULTS = ["reactive", "nonreactive", "invalid"] as const;
export type Result = (typeof RESULTS)[number];
export const STATUSES = ["positive", "negative", "inconclusive"] as const;
export type Status = (typeof STATUSES)[number];

/** A place where one kit is run; `reactive`, `nonreactive`, `invalid` name a step or a status. */
export interface TreeStep extends Readonly<Record<Result, string>> {
  readonly id: string;
  readonly kit: string;
  readonly again: number;
}

/** People expected, of those in truth positive and of those in truth negative. */
export interface Flow {
  readonly diseased: number;
  readonly nondiseased: number;
}

/** The people expected with one result at one step. */
export interface TreeLead extends Flow {
  readonly step: string;
  readonly result: Result;
}

export interface PlacedStep {
  readonly step: TreeStep;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  readonly title: readonly string[];
}

/** Where an exit ends: a status, or a step that is drawn elsewhere. */
export interface PlacedEnd {
  readonly x: number;
  readonly y: number;
  /** Under a box, or to its right. */
  readonly below: boolean;
  readonly status: Status | null;
  /** The kit of a step that is drawn elsewhere. */
  readonly elsewhere: string | null;
  readonly flow: Flow;
}

export interface PlacedEdge {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly result: Result | null;
  readonly flow: Flow;
  /** Whether its numbers are shown beside it: at an end they stand there. */
  readonly counted: boolean;
}

export interface AlgorithmLayout {
  readonly width: number;
  readonly height: number;
  readonly steps: readonly PlacedStep[];
  readonly ends: readonly PlacedEnd[];
  readonly edges: readonly PlacedEdge[];
}

/** Sizes in pixels. */
export const ALGORITHM = {
  box: 128,
  padding: 10,
  text: 12,
  line: 15,
  /** One exit to the right: a status and two lines of numbers. */
  row: 58,
  /** From a box to an end at its right. */
  reach: 96,
  end: 118,
  /** From a box down to the next. */
  drop: 52,
  gap: 18,
  /** Under a box, for a status and its numbers. */
  foot: 58,
} as const;
const COLUMN = ALGORITHM.box + ALGORITHM.reach + ALGORITHM.end + ALGORITHM.gap;

const isStatus = (next: string): next is Status => (STATUSES as readonly string[]).includes(next);

/**
 * An algorithm from top to bottom. From each step one exit goes straight down: the reactive one, or the
 * first that leads to a further step where the reactive one ends; the others go to the right. A further
 * step to the right begins a column of its own. A step reached twice is drawn once and named again. Exits
 * that nobody takes are left out.
 *
 * @param steps first step first
 * @param leads people expected with each result at each step
 * @param all   people who begin
 */
export function layOutAlgorithm(
  steps: readonly TreeStep[],
  leads: readonly TreeLead[],
  all: Flow,
): AlgorithmLayout {
  const tree = new Tree(steps, leads);
  const [first] = steps;
  if (first !== undefined) tree.begin(first, all);
  return tree.layout();
}

interface Exit {
  readonly result: Result;
  readonly next: string;
  readonly flow: Flow;
}

class Tree {
  readonly #steps: ReadonlyMap<string, TreeStep>;
  readonly #leads: readonly TreeLead[];
  readonly #drawn = new Set<string>();
  readonly #bottoms: number[] = [];
  readonly #placed: PlacedStep[] = [];
  readonly #ends: PlacedEnd[] = [];
  readonly #edges: PlacedEdge[] = [];

  constructor(steps: readonly TreeStep[], leads: readonly TreeLead[]) {
    this.#steps = new Map(steps.map((step) => [step.id, step]));
    this.#leads = leads;
  }

  begin(first: TreeStep, all: Flow): void {
    const x = ALGORITHM.box / 2;
    this.#edges.push({ from: [x, 0], to: [x, ALGORITHM.drop], result: null, flow: all, counted: true });
    this.#step(first, 0, ALGORITHM.drop);
  }

  /** Draws a step and all that follows; `y` is where its box may begin. */
  #step(step: TreeStep, column: number, y: number): void {
    this.#drawn.add(step.id);
    const exits = this.#exits(step);
    const down = this.#down(exits);
    const aside = exits.filter((exit) => exit !== down);
    const ends = aside.filter(({ next }) => next === down?.next || !this.#further(next));
    const further = aside.filter((exit) => !ends.includes(exit));
    const x = column * COLUMN;
    const title = wrapText(step.kit, ALGORITHM.box - 2 * ALGORITHM.padding, ALGORITHM.text, "bold");
    const text = title.length * ALGORITHM.line + ALGORITHM.line * (step.again > 0 ? 2 : 1) + 12;
    const top = further.length === 0 ? y : Math.max(y, this.#under(column + 1) - ends.length * ALGORITHM.row);
    let row = top + ALGORITHM.row / 2;
    const right = x + ALGORITHM.box;
    for (const exit of ends) {
      this.#aside(exit, right, row);
      row += ALGORITHM.row;
    }
    for (const exit of further) {
      const next = this.#steps.get(exit.next);
      if (next === undefined || this.#drawn.has(exit.next)) {
        this.#aside(exit, right, row);
      } else {
        row = Math.max(row, this.#under(column + 1) + ALGORITHM.row / 2);
        const to = (column + 1) * COLUMN;
        this.#edges.push({ from: [right, row], to: [to, row], ...exit, counted: true });
        this.#step(next, column + 1, row - ALGORITHM.row / 2);
      }
      row += ALGORITHM.row;
    }
    const height = Math.max(text, row - ALGORITHM.row / 2 - top);
    this.#placed.push({ step, x, y: top, height, title });
    this.#bottoms[column] = Math.max(this.#under(column), top + height);
    if (down !== undefined) this.#below(down, column, top + height);
  }

  /** A box or an end under the one at `y`. */
  #below(exit: Exit, column: number, y: number): void {
    const x = column * COLUMN + ALGORITHM.box / 2;
    const next = this.#steps.get(exit.next);
    const to = y + ALGORITHM.drop;
    const goes = next !== undefined && !this.#drawn.has(exit.next);
    this.#edges.push({ from: [x, y], to: [x, goes ? to : to - 8], ...exit, counted: goes });
    if (goes) {
      this.#step(next, column, to);
      const box = this.#placed.find((placed) => placed.step.id === next.id);
      const edge = this.#edges.findIndex(({ from }) => from[0] === x && from[1] === y);
      const found = this.#edges[edge];
      if (found !== undefined && box !== undefined) this.#edges[edge] = { ...found, to: [x, box.y] };
    } else {
      this.#end(exit, x, to + 8, true);
      this.#bottoms[column] = Math.max(this.#under(column), to + ALGORITHM.foot);
    }
  }

  #aside(exit: Exit, right: number, row: number): void {
    this.#edges.push({ from: [right, row], to: [right + ALGORITHM.reach, row], ...exit, counted: false });
    this.#end(exit, right + ALGORITHM.reach + 8, row, false);
  }

  #end({ next, flow }: Exit, x: number, y: number, below: boolean): void {
    const status = isStatus(next) ? next : null;
    this.#ends.push({
      x,
      y,
      below,
      status,
      elsewhere: status === null ? (this.#steps.get(next)?.kit ?? next) : null,
      flow,
    });
  }

  #exits(step: TreeStep): Exit[] {
    const none = { diseased: 0, nondiseased: 0 };
    return RESULTS.map((result) => ({
      result,
      next: step[result],
      flow: this.#leads.find((lead) => lead.step === step.id && lead.result === result) ?? none,
    })).filter(({ flow }) => flow.diseased + flow.nondiseased > 0);
  }

  #down(exits: readonly Exit[]): Exit | undefined {
    const reactive = exits.find(({ result }) => result === "reactive");
    const further = exits.find(({ next }) => this.#further(next));
    return reactive !== undefined && (further === undefined || this.#further(reactive.next))
      ? reactive
      : further;
  }

  #further(next: string): boolean {
    return !isStatus(next) && this.#steps.has(next) && !this.#drawn.has(next);
  }

  /** The lowest edge so far of a column and of those to its right. */
  #under(column: number): number {
    return Math.max(0, ...this.#bottoms.slice(column).map((bottom) => (bottom ?? 0) + ALGORITHM.gap));
  }

  layout(): AlgorithmLayout {
    const rights = [
      ALGORITHM.box,
      ...this.#ends.map(({ x, below }) => x + (below ? ALGORITHM.box / 2 + 20 : ALGORITHM.end)),
    ];
    const bottoms = [
      ...this.#placed.map(({ y, height }) => y + height),
      ...this.#ends.map(({ y, below }) => y + (below ? ALGORITHM.foot : ALGORITHM.row) - 20),
    ];
    return {
      width: Math.ceil(Math.max(...rights)),
      height: Math.ceil(Math.max(0, ...bottoms) + 10),
      steps: this.#placed,
      ends: this.#ends,
      edges: this.#edges,
    };
  }
}
