import type { ComponentChildren } from "preact";
import { faultsAt } from "./faults.ts";
import { clearField, idOf, type Of, type PartProps, setField } from "./form.ts";
import { choiceOf } from "./labels.ts";
import type { Plain } from "./shape.ts";
import { useTyping } from "./use-typing.ts";

type Scalar = PartProps & { readonly shape: Of<"text" | "number" | "choice" | "fixed" | "unknown"> };

export function isScalar(props: PartProps): props is Scalar {
  return ["text", "number", "choice", "fixed", "unknown"].includes(props.shape.kind);
}

/** A field of one line: its name, what stands in it, what it is for, and what is wrong with it. */
export function ScalarField(props: Scalar) {
  const { form, path, label, shape } = props;
  const id = idOf(form, path);
  return (
    <div class="form-field">
      <label for={id}>
        {label}
        {shape.optional && <span class="form-optional"> {form.words.forms.mayLeaveOut}</span>}
      </label>
      <ScalarInput {...props} />
      <Help {...props} />
    </div>
  );
}

/** The input alone, for a list of them in a row; `named` where no label stands beside it. */
export function ScalarInput({ named = false, ...props }: Scalar & { readonly named?: boolean }) {
  const { form, path, label, shape } = props;
  const id = idOf(form, path);
  const faulty = faultsAt(form.faults, path).length > 0;
  const told = [...(shape.help === null || named ? [] : [`${id}-help`]), ...(faulty ? [`${id}-fault`] : [])];
  const attributes: Told = {
    id,
    "aria-invalid": faulty,
    ...(told.length > 0 ? { "aria-describedby": told.join(" ") } : {}),
    ...(named ? { "aria-label": label } : {}),
  };
  if (shape.kind === "choice") return <ChoiceInput props={props} attributes={attributes} />;
  if (shape.kind === "fixed") return <FixedInput props={props} attributes={attributes} />;
  if (shape.kind === "unknown") return <output id={id}>{form.words.forms.unknown}</output>;
  return <TypedInput props={props} attributes={attributes} />;
}

/** What a field is for, and what is wrong with it. */
export function Help({ form, path, shape }: Pick<PartProps, "form" | "path" | "shape">) {
  const id = idOf(form, path);
  return (
    <>
      {shape.help !== null && (
        <p class="form-help" id={`${id}-help`}>
          {shape.help}
        </p>
      )}
      <FaultLine form={form} path={path} />
    </>
  );
}

export function FaultLine({ form, path }: Pick<PartProps, "form" | "path">) {
  const faults = faultsAt(form.faults, path);
  if (faults.length === 0) return null;
  const said: ComponentChildren = faults.map(({ expected }) => form.words.forms.expected(expected)).join(" ");
  return (
    <p class="form-fault" id={`${idOf(form, path)}-fault`}>
      {said}
    </p>
  );
}

interface Told {
  readonly id: string;
  readonly "aria-invalid": boolean;
  readonly "aria-describedby"?: string;
  readonly "aria-label"?: string;
}

interface InputProps {
  readonly props: Scalar;
  readonly attributes: Told;
}

function TypedInput({ props, attributes }: InputProps) {
  const { shape, form } = props;
  const number = shape.kind === "number";
  const take = (text: string): string => {
    const value = number ? numberIn(text) : text;
    const empty = value === "";
    if (empty) clearField(props, number ? null : "", true);
    else setField(props, value, true);
    return empty ? "" : String(value);
  };
  const given = props.value === null || props.value === undefined ? "" : textOf(props.value);
  const typing = useTyping(given, take);
  const standard = shape.standard === undefined || shape.standard === null ? null : String(shape.standard);
  return (
    <input
      {...attributes}
      type="text"
      class={number ? "form-number" : "form-text"}
      inputMode={number ? "decimal" : "text"}
      autocomplete="off"
      spellcheck={false}
      placeholder={standard === null ? "" : form.words.forms.standard(standard)}
      value={typing.text}
      onInput={(event) => typing.type(event.currentTarget.value)}
      onBlur={typing.leave}
      onKeyDown={(event) => event.key === "Enter" && typing.finish()}
    />
  );
}

const NUMBER = /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i;

/** A number where the text is one; else the text, which the schema then finds fault with. */
function numberIn(text: string): number | string {
  const bare = text.trim();
  return NUMBER.test(bare) ? Number(bare) : bare;
}

function textOf(value: unknown): string {
  return typeof value === "object" ? JSON.stringify(value) : String(value);
}

function ChoiceInput({ props, attributes }: InputProps) {
  const { shape, form, value } = props;
  if (shape.kind !== "choice") return null;
  const { forms } = form.words;
  const { standard } = shape;
  const blank = shape.optional
    ? standard === undefined || standard === null
      ? forms.leftOut
      : forms.standard(choiceOf(standard as Plain, form.words))
    : shape.nullable
      ? forms.none
      : forms.choose;
  const chosen = shape.options.indexOf(value as Plain);
  const foreign = chosen === -1 && value !== null && value !== undefined && value !== "";
  return (
    <select
      {...attributes}
      value={foreign ? "foreign" : chosen === -1 ? "" : String(chosen)}
      onChange={({ currentTarget }) => {
        if (currentTarget.value === "") clearField(props, null);
        else setField(props, shape.options[Number(currentTarget.value)]);
      }}
    >
      <option value="">{blank}</option>
      {foreign && <option value="foreign">{textOf(value)}</option>}
      {shape.options.map((option, place) => (
        <option key={String(option)} value={String(place)}>
          {choiceOf(option, form.words)}
        </option>
      ))}
    </select>
  );
}

/** What the schema leaves no choice about; a wrong value is set right by one click. */
function FixedInput({ props, attributes }: InputProps) {
  const { shape, value } = props;
  if (shape.kind !== "fixed") return null;
  if (value === shape.value) {
    return (
      <output id={attributes.id} class="form-fixed">
        {String(shape.value)}
      </output>
    );
  }
  return (
    <button {...attributes} type="button" onClick={() => setField(props, shape.value)}>
      {String(shape.value)}
    </button>
  );
}
