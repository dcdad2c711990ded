import type { ComponentChildren } from "preact";
import type { SectionId } from "../contents.ts";
import { placeOf, type Report } from "../context.ts";

/** A numbered section of the evidence. */
export function Section(props: { report: Report; id: SectionId; children: ComponentChildren }) {
  const place = placeOf(props.report, props.id);
  if (place === null) return null;
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
