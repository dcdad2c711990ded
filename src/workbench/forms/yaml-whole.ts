import { Document, isMap, isNode, isScalar, parseDocument } from "yaml";
import type { Edit } from "./edit.ts";
import { sameValue } from "./same-value.ts";
import { YAML } from "./yaml-dialect.ts";

/** A file written as a whole with an edit applied, its comments kept where the document can be changed in place. */
export function wholeEdited(text: string, edit: Edit, wanted: unknown): string {
  const tree = parseDocument(text, YAML);
  try {
    change(tree, edit);
    if (sameValue(tree.toJS(), wanted)) return tree.toString({ lineWidth: 0 });
  } catch {
    // References within the file stand in the way: it is written without them.
  }
  const anew = new Document(wanted, YAML);
  anew.commentBefore = tree.commentBefore;
  return anew.toString({ lineWidth: 0 });
}

function change(tree: Document.Parsed, edit: Edit): void {
  const { path } = edit;
  if (edit.kind === "set") tree.setIn(path, tree.createNode(edit.value));
  else if (edit.kind === "remove") tree.deleteIn(path);
  else if (edit.kind === "rename") {
    const parent = tree.getIn(path.slice(0, -1));
    const pair = isMap(parent)
      ? parent.items.find(({ key }) => String(key) === String(path.at(-1)))
      : undefined;
    if (isNode(pair?.key) && isScalar(pair.key)) pair.key.value = edit.to;
  }
}
