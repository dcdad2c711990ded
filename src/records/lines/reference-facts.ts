import { texts, truths } from "../cells.ts";
import type { Table } from "../table.ts";
import type { Context } from "./context.ts";

/** How the reference results stand; alarms are made of it. */
export interface ReferenceFacts {
  total: number;
  triggered: number;
  notBlinded: number;
  blindingStated: number;
  readonly triggeringLabs: Set<string>;
}

export function noFacts(): ReferenceFacts {
  return { total: 0, triggered: 0, notBlinded: 0, blindingStated: 0, triggeringLabs: new Set() };
}

/** Counts one row. */
export function factReader(table: Table, { issues }: Context, facts: ReferenceFacts) {
  const blinded = truths({ table, name: "blinded_to_index", issues });
  const triggered = truths({ table, name: "triggered_by_index", issues });
  const lab = texts(table, "lab_id");
  return (row: number): void => {
    facts.total += 1;
    const state = blinded(row);
    if (state !== null) facts.blindingStated += 1;
    if (state === false) facts.notBlinded += 1;
    if (triggered(row) === true) {
      facts.triggered += 1;
      facts.triggeringLabs.add(lab(row) ?? "");
    }
  };
}
