import type { ComponentChildren } from "preact";
import type { Shared } from "../context.ts";

/** A part open under its heading, or folded on screen and printed all the same. */
export function OpenOrFolded(props: {
  report: Shared;
  title: string;
  open: boolean;
  children: ComponentChildren;
}) {
  const { report, title, open, children } = props;
  if (open) {
    return (
      <>
        <h3>{title}</h3>
        {children}
      </>
    );
  }
  return (
    <details class="printed">
      <summary>{report.words.page.other(title)}</summary>
      {children}
    </details>
  );
}
