import type { ComponentType } from "preact";
import type { Words } from "../words/en.ts";
import type { Edit, Path } from "./edit.ts";
import type { Fault } from "./faults.ts";
import type { Shape } from "./shape.ts";

/** What every part of one form shares. */
export interface Form {
  /** Begins the ids of the form's fields, so that two forms on one page have none in common. */
  readonly id: string;
  readonly words: Words;
  readonly faults: readonly Fault[];
  readonly edit: (edit: Edit, typing?: boolean) => void;
  readonly parts: Parts;
}

/** What parts are made of that have parts themselves. Handed on, since a file may not need itself in a circle. */
export interface Parts {
  /** One field with its name, whatever its shape. */
  readonly Part: ComponentType<PartProps>;
  /** The same without the name. */
  readonly Whole: ComponentType<PartProps>;
  /** What stands in it alone. */
  readonly Content: ComponentType<PartProps>;
}

/** What the part of a form for one field is given. */
export interface PartProps {
  readonly form: Form;
  readonly path: Path;
  readonly label: string;
  readonly shape: Shape;
  readonly value: unknown;
  /** The names beside it in the order of the schema. */
  readonly order?: readonly string[];
}

/** A shape of one kind. */
export type Of<Kind extends Shape["kind"]> = Extract<Shape, { readonly kind: Kind }>;

export function idOf(form: Form, path: Path): string {
  return [form.id, ...path].join("-");
}

/** Puts a value in a field's place. */
export function setField({ form, path, order }: PartProps, value: unknown, typing = false): void {
  form.edit({ kind: "set", path, value, ...(order === undefined ? {} : { order }) }, typing);
}

/** Leaves a field out; where the schema asks for one, its place is left empty and says so. */
export function clearField(props: PartProps, empty: unknown, typing = false): void {
  const { form, path, shape } = props;
  if (!shape.optional) setField(props, empty, typing);
  else if (props.value !== undefined) form.edit({ kind: "remove", path }, typing);
}
