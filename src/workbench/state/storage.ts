import type { ViewId } from "./view-id.ts";
import type { Explored } from "./work.ts";

/** The part of the browser's Storage that keeping work needs. */
export type Shelf = Pick<Storage, "getItem" | "setItem" | "removeItem">;

/** Work as it lies in the browser's storage. */
export interface KeptWork {
  readonly version: 1;
  readonly view: ViewId;
  readonly title: string;
  readonly explored: readonly Explored[];
  readonly drafts: Readonly<Record<string, string>>;
  /** Each file squeezed by the worker. */
  readonly files: readonly { readonly name: string; readonly squeezed: string }[];
}

/** Where work lies in the browser's storage. */
export const STORAGE_KEY = "fourfold-workbench";

/** What lies on the shelf; `null` where there is nothing, or nothing that can be read. */
export function readShelf(shelf: Shelf | null): KeptWork | null {
  try {
    const text = shelf?.getItem(STORAGE_KEY) ?? null;
    const kept: unknown = text === null ? null : JSON.parse(text);
    return isKept(kept) ? kept : null;
  } catch {
    return null;
  }
}

function isKept(value: unknown): value is KeptWork {
  return value !== null && typeof value === "object" && "version" in value && value.version === 1;
}

/**
 * Puts work on the shelf. Where it does not fit the old is taken away all the same: a reload must not bring
 * back what the user had left.
 *
 * @returns whether it lies there now
 */
export function writeShelf(shelf: Shelf, kept: KeptWork): boolean {
  try {
    shelf.setItem(STORAGE_KEY, JSON.stringify(kept));
    return true;
  } catch {
    wipeShelf(shelf);
    return false;
  }
}

export function wipeShelf(shelf: Shelf | null): void {
  try {
    shelf?.removeItem(STORAGE_KEY);
  } catch {
    // A shelf that may not be touched holds nothing of ours.
  }
}
