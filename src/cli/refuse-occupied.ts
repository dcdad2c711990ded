import { namesIn, standsAt } from "./files.ts";
import { wrongUsage } from "./io.ts";

/** Refuses a place for a new folder where something stands already; an empty folder will do. */
export async function refuseOccupied(folder: string, typed: string): Promise<void> {
  const found = await standsAt(folder);
  if (found === null) return;
  if (!found.isDirectory()) throw wrongUsage(`${typed}: there is a file of that name`);
  const names = (await namesIn(folder)) ?? [];
  if (names.length > 0) throw wrongUsage(`${typed}: the folder is not empty`);
}
