import { fromAToF } from "./cited/a-to-f.ts";
import { fromGToM } from "./cited/g-to-m.ts";
import { fromNToZ } from "./cited/n-to-z.ts";

export type { Source } from "./cited/source.ts";

/** Every source that a method or worked example of the catalogue names, by its key. */
export const sources = { ...fromAToF, ...fromGToM, ...fromNToZ };

export type SourceKey = keyof typeof sources;
