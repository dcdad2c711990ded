import type { ComponentChildren } from "preact";
import type { Placed } from "../contents.ts";

interface Props<Id extends string> {
  readonly report: { readonly contents: readonly Placed<Id>[] };
  readonly id: NoInfer<Id>;
  readonly children: ComponentChildren;
}

/** A numbered section of the evidence; nothing where the report does not have it. */
export function Section<Id extends string>(props: Props<Id>) {
  const place = props.report.contents.find(({ id }) => id === props.id);
  if (place === undefined) return null;
  return (
    <section id={props.id} class="evidence" aria-labelledby={`${props.id}-heading`}>
      <h2 id={`${props.id}-heading`}>
        <span class="number">{place.number}</span> {place.title}
      </h2>
      {props.children}
    </section>
  );
}

/** A part of a section about one analyte: the words within follow the analyte's reference. */
export function AnalytePart(props: { analyte: string; children: ComponentChildren }) {
  return (
    <div class="part" data-analyte={props.analyte}>
      {props.children}
    </div>
  );
}
