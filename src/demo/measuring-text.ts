/** What the demo study file says of clinics pooled, of the optical reader, and of its dilution panel. */
export function measuringText(): string {
  return `# Five clinics taken as a sample of clinics: what might a sixth one see?
pooling: { by: site }

# The optical reader's numbers. Its cutoffs were stated beforehand, in the kit file; the one that these people would
# choose is shown beside, with what choosing it on the same people flatters by.
instruments:
  - reader: OR
    unit: arbitrary units
    direction: higher
    scale: log10
    choose: youden

# How little HBsAg does the kit still show? Plasma diluted step by step, many devices at each step.
panels:
  - id: hbsag-dilution
    title: Dilution panel for HBsAg, two lots
    analyte: hbsag
    table: dilution_panel.csv
    columns: { concentration: hbsag_iu_per_ml, tested: devices, reactive: reactive, lot: lot_id }
    unit: IU/mL
    chance: 0.95
    lack_of_fit: widen_when_shown
    source: own demonstration, invented
`;
}
