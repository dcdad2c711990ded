import type { ComponentChildren } from "preact";
import type { Shared } from "../context.ts";
import { Drawing } from "./drawing.tsx";

/**
 * A chart drawn beforehand, its data as a table, and its specification to take away. The drawing
 * carries its own text alternative; its text was escaped when it was drawn.
 */
export function Chart(props: { report: Shared; name: string; label: string; children: ComponentChildren }) {
  const figure = props.report.figures.get(props.name);
  if (figure === undefined) return null;
  const { page } = props.report.words;
  const file = `data:application/json;base64,${base64(JSON.stringify(figure.spec))}`;
  return (
    <figure class="chart">
      <Drawing label={page.chart(props.label)}>
        <div dangerouslySetInnerHTML={{ __html: figure.svg }} />
      </Drawing>
      <details class="aside">
        <summary>{page.data}</summary>
        {props.children}
        <p class="how">
          <a download={`${figure.name}.vl.json`} href={file}>
            {page.specification}
          </a>
        </p>
      </details>
    </figure>
  );
}

/** Text in UTF-8 as base64 (RFC 4648): half as long in an attribute as percent signs. */
function base64(text: string): string {
  let bytes = "";
  for (const byte of new TextEncoder().encode(text)) bytes += String.fromCharCode(byte);
  return btoa(bytes);
}
