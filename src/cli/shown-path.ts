import { relative } from "node:path";
import type { Io } from "./io.ts";

/** A path as the user would type it: relative where it lies below, else in full. */
export function shownPath(io: Io, path: string): string {
  const below = relative(io.folder, path);
  return below === "" ? "." : below.startsWith("..") ? path : below;
}
