/**
 * The usual testing algorithms, by their trade terms. They are named here once: files of algorithms ask for them, the
 * catalogue lays out their steps.
 */
export const PRESETS = [
  "single",
  "serial_confirm",
  "parallel",
  "tie_breaker",
  "consecutive_two",
  "consecutive_three",
  "laboratory_confirm",
] as const;
export type Preset = (typeof PRESETS)[number];
