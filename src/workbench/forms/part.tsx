import { blankOf } from "./blank.ts";
import { CasesPart } from "./cases-part.tsx";
import { FieldsPart } from "./fields-part.tsx";
import { clearField, idOf, type PartProps, type Parts, setField } from "./form.ts";
import { ListPart } from "./list-part.tsx";
import { NamedPart } from "./named-part.tsx";
import { FaultLine, Help, isScalar, ScalarField } from "./scalar-field.tsx";
import type { Shape } from "./shape.ts";

/** The part of a form for one field, whatever its shape. */
export function Part(props: PartProps) {
  if (isScalar(props)) return <ScalarField {...props} />;
  const { form, path, label, shape } = props;
  return (
    <fieldset class="form-part" id={idOf(form, path)}>
      <legend>
        {label}
        {shape.optional && <span class="form-optional"> {form.words.forms.mayLeaveOut}</span>}
      </legend>
      <Whole {...props} />
    </fieldset>
  );
}

/** A part of several fields, without its name: there, or to be added. */
export function Whole(props: PartProps) {
  const { form, path, label, shape, value } = props;
  const { forms } = form.words;
  const there = fits(props);
  const begin = () => setField(props, begunOf(shape));
  return (
    <>
      <Help form={form} path={path} shape={shape} />
      {there && <Content {...props} />}
      {!there && (
        <button type="button" class="plain" onClick={begin}>
          {forms.add(label)}
        </button>
      )}
      {value !== undefined && value !== null && shape.optional && (
        <button type="button" class="plain" onClick={() => clearField(props, null)}>
          {forms.removeItem(label)}
        </button>
      )}
    </>
  );
}

/** The parts that hand each other on. */
export const PARTS: Parts = { Part, Whole, Content };

/** What a part that was left out begins with: what counts without it, a list with one item. */
function begunOf(shape: Shape): unknown {
  const { standard } = shape;
  if (shape.kind === "list") {
    const begun = Array.isArray(standard) && standard.length > 0 ? standard : blankOf(shape);
    return Array.isArray(begun) && begun.length === 0 ? [blankOf(shape.item)] : begun;
  }
  return standard ?? blankOf(shape);
}

/** The content of a part alone. */
export function Content(props: PartProps) {
  switch (props.shape.kind) {
    case "fields":
      return <FieldsPart {...props} shape={props.shape} />;
    case "list":
      return <ListPart {...props} shape={props.shape} />;
    case "named":
      return <NamedPart {...props} shape={props.shape} />;
    case "cases":
      return <CasesPart {...props} shape={props.shape} />;
    default:
      return <FaultLine {...props} />;
  }
}

/** Whether a value has the outer form that its shape asks for, so that its parts can be shown. */
function fits({ shape, value }: PartProps): boolean {
  if (shape.kind === "list") return Array.isArray(value);
  if (shape.kind === "cases") return value !== undefined || !shape.optional;
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
