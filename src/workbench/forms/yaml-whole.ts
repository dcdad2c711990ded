import { Document, isMap, isNode, isScalar, parseDocument } from "yaml";
import type { Edit } from "./edit.ts";
import { YAML } from "./edited-yaml.ts";
import { sameValue } from "./same-value.ts";

/** A file written as a whole with an edit applied, its comments kept where the document can be changed in place. */
export function wholeEdited(text: string, edit: Edit, wanted: unknown): string {
  const document = parseDocument(text, YAML);
  try {
    change(document, edit);
    if (sameValue(document.toJS(), wanted)) return document.toString({ lineWidth: 0 });
  } catch {
    // References within the file stand in the way: it is written without them.
  }
  const anew = new Document(wanted, YAML);
  anew.commentBefore = document.commentBefore;
  return anew.toString({ lineWidth: 0 });
}

function change(document: Document.Parsed, edit: Edit): void {
  const { path } = edit;
  if (edit.kind === "set") document.setIn(path, document.createNode(edit.value));
  else if (edit.kind === "remove") document.deleteIn(path);
  else if (edit.kind === "rename") {
    const parent = document.getIn(path.slice(0, -1));
    const pair = isMap(parent)
      ? parent.items.find(({ key }) => String(key) === String(path.at(-1)))
      : undefined;
    if (isNode(pair?.key) && isScalar(pair.key)) pair.key.value = edit.to;
  }
}
