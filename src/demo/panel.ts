import { drawsOf } from "./draws.ts";
import { EYE, LOTS } from "./scenario.ts";
import type { Row, Table } from "./tables.ts";

/**
 * The invented dilution panel: HBsAg in plasma, diluted, each concentration run on many devices of two lots, read by
 * eye. A device's line has the strength of the concentration, log10 units, give or take what differs from device
 * to device and from look to look.
 */
export const PANEL = {
  lots: LOTS.slice(0, 2).map(({ lot }) => lot),
  /** IU/mL; 0 is plasma without HBsAg. */
  concentrations: [0, 0.025, 0.05, 0.075, 0.1, 0.15, 0.2, 0.4],
  devices: 24,
  /** At this concentration the line is as strong as the first reader's eye needs. */
  atThreshold: 0.1,
  /** Log10 units, from device to device. */
  deviceDeviation: 0.15,
} as const;

/** Of a device's strength as seen, log10 units. */
export const PANEL_DEVIATION = Math.hypot(PANEL.deviceDeviation, EYE.deviation);

/** Devices of the panel that were reactive, by lot and concentration. */
export function panelTable(seed: number): Table {
  const draws = drawsOf(seed, "dilution panel");
  const rows = PANEL.lots.flatMap((lot) =>
    PANEL.concentrations.map((concentration): Row => {
      let reactive = 0;
      for (let device = 0; device < PANEL.devices; device += 1) {
        const above = Math.log10(concentration / PANEL.atThreshold) + draws.normal(0, PANEL_DEVIATION);
        if (above > 0) reactive += 1;
      }
      return {
        lot_id: lot,
        hbsag_iu_per_ml: String(concentration),
        devices: String(PANEL.devices),
        reactive: String(reactive),
      };
    }),
  );
  return { name: "dilution_panel", columns: Object.keys(rows[0] ?? {}), rows };
}
