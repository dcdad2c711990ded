import type { OperatorId, SiteId } from "./world.ts";

/** Who ran the devices. Two of the fourteen have a habit that the report should bring to light. */
export interface Operator {
  readonly id: OperatorId;
  readonly site: SiteId;
  readonly cadre: "nurse" | "technician" | "lay";
  readonly trainedOn: string;
  readonly panelItems: number;
  readonly panelCorrect: number;
  /** Added to the visual threshold, log10 units: misses faint lines. */
  readonly missesFaint: number;
  /** Share of devices with another number of drops than three (but within the kit's limits). */
  readonly wrongDrops: number;
  readonly invalidTimes: number;
  /** Extra share of readings made late. */
  readonly readsLate: number;
}

const operator = (
  id: OperatorId,
  site: SiteId,
  cadre: Operator["cadre"],
  trainedOn: string,
  panelCorrect: number,
  habit: Partial<Operator> = {},
): Operator => ({
  id,
  site,
  cadre,
  trainedOn,
  panelItems: 10,
  panelCorrect,
  missesFaint: 0,
  wrongDrops: 0.04,
  invalidTimes: 1,
  readsLate: 0,
  ...habit,
});

export const OPERATORS: readonly Operator[] = [
  operator("OP-01", "B", "nurse", "2026-03-03", 10),
  operator("OP-02", "B", "nurse", "2026-03-03", 9),
  operator("OP-03", "B", "technician", "2026-03-03", 10),
  operator("OP-04", "B", "nurse", "2026-03-04", 10),
  operator("OP-05", "O", "nurse", "2026-03-04", 8, { missesFaint: 0.25 }),
  operator("OP-06", "O", "nurse", "2026-03-04", 10),
  operator("OP-07", "O", "technician", "2026-03-04", 9),
  operator("OP-08", "T", "nurse", "2026-03-10", 10),
  operator("OP-09", "T", "technician", "2026-03-10", 10),
  operator("OP-10", "T", "nurse", "2026-03-10", 9),
  operator("OP-11", "T", "lay", "2026-03-11", 9, { wrongDrops: 0.3, invalidTimes: 3, readsLate: 0.25 }),
  operator("OP-12", "K", "lay", "2026-03-17", 9),
  operator("OP-13", "K", "nurse", "2026-03-17", 10),
  operator("OP-14", "L", "technician", "2026-03-18", 10),
];
