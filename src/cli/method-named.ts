import type { Method } from "../core/method.ts";
import { catalogue, findMethod } from "../methods/index.ts";
import { nearest } from "../records/nearest.ts";
import { wrongUsage } from "./io.ts";

/** A method of the catalogue by its id. A mistyped one is refused with the nearest name. */
export function methodNamed(id: string): Method {
  const method = findMethod(id);
  if (method) return method;
  const near = nearest(
    id,
    catalogue.map((entry) => entry.id),
  );
  const hint = near === null ? "`fourfold methods` lists them" : `did you mean ${near}?`;
  throw wrongUsage(`no such method: ${id}; ${hint}`);
}
