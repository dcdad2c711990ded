/** Where a field stands in a value. */
export type Path = readonly (string | number)[];

/** One change of a value, made in a form. */
export type Edit =
  | {
      readonly kind: "set";
      readonly path: Path;
      readonly value: unknown;
      /** The fields of the place in the order of the schema: a new one takes its place among them. */
      readonly order?: readonly string[];
    }
  | { readonly kind: "remove"; readonly path: Path }
  | { readonly kind: "rename"; readonly path: Path; readonly to: string }
  /** An item of a list moves one place up. */
  | { readonly kind: "raise"; readonly path: Path };

/** An edit, and whether it is one of a run of typing: all of a run are one step. */
export interface FormEdit {
  readonly edit: Edit;
  readonly typing: boolean;
}

type Fields = Readonly<Record<string, unknown>>;

/** The value with an edit applied; what the edit leaves alone is shared, not copied. */
export function edited(value: unknown, edit: Edit): unknown {
  if (edit.path.length === 0) return edit.kind === "set" ? edit.value : value;
  return within(value, edit.path, edit);
}

function within(value: unknown, path: Path, edit: Edit): unknown {
  const [step, ...rest] = path as [string | number, ...(string | number)[]];
  if (rest.length === 0)
    return Array.isArray(value) ? inList(value, Number(step), edit) : inFields(value, String(step), edit);
  if (Array.isArray(value)) {
    return value.map((item, place) => (place === Number(step) ? within(item, rest, edit) : item));
  }
  const fields = fieldsOf(value);
  return { ...fields, [step]: within(fields[step], rest, edit) };
}

function inList(list: readonly unknown[], place: number, edit: Edit): unknown[] {
  if (edit.kind === "remove") return list.filter((_, at) => at !== place);
  if (edit.kind === "raise")
    return list.map((item, at) => list[at === place ? at - 1 : at === place - 1 ? at + 1 : at] ?? item);
  if (edit.kind === "rename") return [...list];
  const copy = [...list];
  copy[place] = edit.value;
  return copy;
}

function inFields(value: unknown, name: string, edit: Edit): Fields {
  const fields = fieldsOf(value);
  if (edit.kind === "raise") return fields;
  if (edit.kind === "rename") return renamed(fields, name, edit.to);
  if (edit.kind === "remove") {
    return Object.fromEntries(Object.entries(fields).filter(([other]) => other !== name));
  }
  if (Object.hasOwn(fields, name) || edit.order === undefined) return { ...fields, [name]: edit.value };
  const place = placeOf(Object.keys(fields), name, edit.order);
  const entries = Object.entries(fields);
  return Object.fromEntries([...entries.slice(0, place), [name, edit.value], ...entries.slice(place)]);
}

/** A name that stands already is not given twice. */
function renamed(fields: Fields, name: string, to: string): Fields {
  if (Object.hasOwn(fields, to)) return fields;
  return Object.fromEntries(Object.entries(fields).map(([key, inner]) => [key === name ? to : key, inner]));
}

/** The place of a new field among those that stand there: before the first that the order puts later. */
export function placeOf(names: readonly string[], name: string, order: readonly string[]): number {
  const rank = order.indexOf(name);
  const place = names.findIndex((other) => order.indexOf(other) > rank);
  return place === -1 || rank === -1 ? names.length : place;
}

function fieldsOf(value: unknown): Fields {
  return typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Fields) : {};
}
