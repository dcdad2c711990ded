/** What becomes of a person, by what is true of them. */
export const FATES = ["found", "unclearPositive", "missed", "falseAlarm", "unclearNegative", "rest"] as const;
export type Fate = (typeof FATES)[number];

/** The class of a fate's mark. */
export const FATE_CLASS: Record<Fate, string> = {
  found: "fig-found",
  unclearPositive: "fig-unclear-positive",
  missed: "fig-missed",
  falseAlarm: "fig-false-alarm",
  unclearNegative: "fig-unclear",
  rest: "fig-rest",
};

/**
 * A person's mark as a path: a filled dot found, a ring missed, a diamond falsely called positive, a square
 * without a decision (filled where the person has the condition), a point for everyone else.
 *
 * @param size half the width of the mark, pixels
 */
export function personMark(fate: Fate, x: number, y: number, size: number): string {
  const r = (value: number) => Math.round(value * 100) / 100;
  switch (fate) {
    case "missed":
      return `M${r(x - size)} ${r(y)}a${size} ${size} 0 1 1 ${2 * size} 0a${size} ${size} 0 1 1 ${-2 * size} 0`;
    case "falseAlarm": {
      const half = r(size * 1.3);
      return `M${r(x)} ${r(y - half)}l${half} ${half}l${-half} ${half}l${-half} ${-half}z`;
    }
    case "unclearPositive":
    case "unclearNegative":
      return `M${r(x - size)} ${r(y - size)}h${2 * size}v${2 * size}h${-2 * size}z`;
    default:
      return `M${r(x)} ${r(y)}h0`;
  }
}
