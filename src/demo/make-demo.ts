import { plantFaults } from "./faults.ts";
import { demoKitText } from "./kit-text.ts";
import { withNeedlessRepeats } from "./needless-repeats.ts";
import { panelTable } from "./panel.ts";
import { DEMO_PLAN, SEED } from "./scenario.ts";
import { simulate } from "./simulate.ts";
import { DEMO_STUDY_ID, demoStudyText } from "./study-text.ts";
import { csvText, writeTables } from "./tables.ts";
import { type Truth, tellTruth } from "./truth.ts";

export interface DemoFile {
  readonly name: string;
  readonly text: string;
}

export interface Demo {
  readonly files: readonly DemoFile[];
  readonly truth: Truth;
}

/**
 * The demo study SELBRIA-HEP, invented and simulated: study file, kit file, nine tables, and the
 * truth behind them. Same seed, same bytes.
 *
 * @param seed whole number, 0 to 2^32 - 1; the committed study has the default
 */
export function makeDemo(seed: number = SEED): Demo {
  const world = withNeedlessRepeats(seed, simulate({ seed, plan: DEMO_PLAN }));
  const written = writeTables(world);
  const faults = plantFaults(seed, world, written);
  const { tables } = written;
  return {
    files: [
      { name: "study.yaml", text: demoStudyText(seed) },
      { name: "kit.yaml", text: demoKitText() },
      ...[...Object.values(tables), panelTable(seed)].map((table) => ({
        name: `${table.name}.csv`,
        text: csvText(table),
      })),
    ],
    truth: tellTruth({ study: DEMO_STUDY_ID, seed }, world, faults, tables),
  };
}
