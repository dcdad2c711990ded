import type { ComponentChildren } from "preact";

/** A wide table in a region of its own that scrolls sideways on a narrow screen. */
export function Scrolling({ label, children }: { label: string; children: ComponentChildren }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    <section class="table" tabIndex={0} aria-label={label}>
      {children}
    </section>
  );
}
