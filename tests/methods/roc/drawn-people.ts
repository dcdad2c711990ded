import { randomNormal } from "d3-random";
import { randomStream } from "../../../src/core/random.ts";

/** Standard normal numbers, as many as are asked for, from a stream of their own. */
export function normals(seed: number, task: number): () => number {
  return randomNormal.source(randomStream(seed, task))(0, 1);
}

/** So many readings around a mean. */
export function readings(normal: () => number, people: number, mean: number): number[] {
  return Array.from({ length: people }, () => mean + normal());
}
