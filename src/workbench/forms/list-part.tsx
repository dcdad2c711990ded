import { useLayoutEffect, useRef } from "preact/hooks";
import { blankOf } from "./blank.ts";
import { idOf, type Of, type PartProps } from "./form.ts";
import { nameOf } from "./gist.ts";
import { FaultLine, isScalar, ScalarInput } from "./scalar-field.tsx";

type ListProps = PartProps & { readonly shape: Of<"list"> };

/** The items of a list, each to be changed, moved up or removed, and a button for another. */
export function ListPart(props: ListProps) {
  const { form, path, label, shape } = props;
  const items = props.value as readonly unknown[];
  const { forms } = form.words;
  const box = useRef<HTMLDivElement>(null);
  const focus = useFocusAfter(box);
  const fixed = shape.places !== null || shape.least === shape.most;
  const add = (): void => {
    focus("last");
    form.edit({ kind: "set", path: [...path, items.length], value: blankOf(shape.item) });
  };
  const oneLine = shape.places === null && isScalar({ ...props, shape: shape.item });
  return (
    <div class={oneLine ? "form-list form-row" : "form-list"} ref={box}>
      {items.map((_, place) => (
        <Item key={place} {...props} place={place} fixed={fixed} removed={() => focus("add")} />
      ))}
      {!fixed && items.length < shape.most && (
        <button type="button" class="plain form-add" onClick={add} aria-label={forms.addOne(label)}>
          {forms.addItem}
        </button>
      )}
    </div>
  );
}

interface ItemProps extends ListProps {
  readonly place: number;
  readonly fixed: boolean;
  readonly removed: () => void;
}

function Item({ place, fixed, removed, ...list }: ItemProps) {
  const { form, path, label, shape } = list;
  const value = (list.value as readonly unknown[])[place];
  const name = nameOf(value);
  const item: PartProps = {
    form,
    path: [...path, place],
    label: `${label} ${place + 1}`,
    shape: shape.places?.[place] ?? shape.item,
    value,
  };
  const { forms } = form.words;
  const { Whole } = form.parts;
  const change = (kind: "remove" | "raise"): void => {
    if (kind === "remove") removed();
    form.edit({ kind, path: item.path });
  };
  const button = (kind: "remove" | "raise", text: string, said: string) => (
    <button type="button" class="plain" aria-label={said} onClick={() => change(kind)}>
      {text}
    </button>
  );
  if (isScalar(item)) {
    return (
      <div class="form-item">
        <ScalarInput {...item} named />
        {!fixed && button("remove", "×", forms.removeItem(item.label))}
        <FaultLine form={form} path={item.path} />
      </div>
    );
  }
  return (
    <fieldset class="form-part" id={idOf(form, item.path)}>
      <legend>
        {item.label}
        {name !== "" && <span class="form-name"> {name}</span>}
      </legend>
      <Whole {...item} />
      {!fixed && (
        <p class="form-acts">
          {place > 0 && button("raise", forms.raise, forms.raiseItem(item.label))}{" "}
          {button("remove", forms.remove, forms.removeItem(item.label))}
        </p>
      )}
    </fieldset>
  );
}

const FIELDS = "input, select, textarea, button";

/** After an item was added or removed the focus goes on from there, and not to the top of the page. */
function useFocusAfter(box: { readonly current: HTMLElement | null }): (where: "last" | "add") => void {
  const wanted = useRef<"last" | "add" | null>(null);
  useLayoutEffect(() => {
    const { current: where } = wanted;
    wanted.current = null;
    const { current: place } = box;
    if (where === null || place === null) return;
    const items = place.querySelectorAll<HTMLElement>(":scope > .form-item, :scope > fieldset");
    const last = items[items.length - 1]?.querySelector<HTMLElement>(FIELDS);
    const add = place.querySelector<HTMLElement>(":scope > .form-add");
    (where === "last" ? last : add)?.focus();
  });
  return (where) => {
    wanted.current = where;
  };
}
