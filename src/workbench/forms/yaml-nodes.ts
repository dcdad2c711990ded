import { isMap, isNode, isScalar, isSeq, type Node, type Pair, type YAMLMap, type YAMLSeq } from "yaml";
import type { Path } from "./edit.ts";

export type Collection = YAMLMap<Node, Node | null> | YAMLSeq<Node>;

/** The node at a path; `null` where there is none, or where it is reached by a reference. */
export function nodeAt(root: unknown, path: Path): Node | null {
  let node: unknown = root;
  for (const step of path) node = childOf(node, step);
  return isNode(node) ? node : null;
}

export function collectionAt(root: unknown, path: Path): Collection | null {
  const node = nodeAt(root, path);
  return isMap(node) || isSeq(node) ? (node as Collection) : null;
}

/** The pair of a mapping that has this name. */
export function pairOf(map: YAMLMap<Node, Node | null>, name: string): Pair<Node, Node | null> | undefined {
  return map.items.find(({ key }) => String(isScalar(key) ? key.value : key) === name);
}

function childOf(node: unknown, step: string | number): unknown {
  if (isMap(node)) return pairOf(node as YAMLMap<Node, Node | null>, String(step))?.value;
  return isSeq(node) ? node.items[Number(step)] : null;
}
