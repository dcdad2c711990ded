import { InputError } from "../../core/input-error.ts";

/** Shares of people whom only the one kit, or only the other, judges rightly. */
export interface Discordance {
  readonly firstOnly: number;
  readonly secondOnly: number;
}

/** What two proportions of the same people allow, and what is planned with. */
export interface DiscordanceRange extends Discordance {
  readonly least: number;
  readonly independent: number;
  readonly most: number;
  readonly planned: number;
}

interface PairedKits {
  readonly first: number;
  readonly second: number;
  readonly discordant: number | null;
}

/** A stated share this little outside is at the bound: it was itself added up from rounded numbers. */
const ROUNDING = 1e-9;

/**
 * The share of people for whom exactly one kit is right: least, independent and greatest possible, and the
 * one planned with.
 *
 * @throws InputError where the share stated cannot be had with the two proportions
 */
export function discordanceOf({ first, second, discordant }: PairedKits): DiscordanceRange {
  const least = Math.abs(first - second);
  const most = Math.min(first + second, 1 - first + (1 - second));
  const independent = Math.min(most, Math.max(least, first * (1 - second) + second * (1 - first)));
  if (discordant !== null && (discordant < least - ROUNDING || discordant > most + ROUNDING)) {
    const allowed = `a share from ${shown(least)} to ${shown(most)}, as the two proportions allow`;
    throw new InputError(["input", "discordant"], allowed, discordant);
  }
  const planned = discordant === null ? independent : Math.min(most, Math.max(least, discordant));
  return { least, independent, most, planned, ...splitOf(first - second, planned) };
}

/** The two parts of a share of discordant people that differ by this much. */
export function splitOf(difference: number, discordant: number): Discordance {
  return {
    firstOnly: Math.max(0, (discordant + difference) / 2),
    secondOnly: Math.max(0, (discordant - difference) / 2),
  };
}

function shown(share: number): string {
  return String(Number(share.toPrecision(6)));
}
