import { render, type VNode } from "preact";
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";

/**
 * A page within the page, in a tree of its own: its ids and its links to them are not those of another page
 * that stands hidden beside it. It has the styles of the document around it.
 */
export function OwnRoot({ children }: { readonly children: VNode }) {
  const host = useRef<HTMLDivElement>(null);
  const place = useRef<HTMLElement | null>(null);
  useLayoutEffect(() => {
    if (host.current === null) return;
    place.current ??= rootIn(host.current);
    render(children, place.current);
  }, [children]);
  useEffect(
    () => () => {
      if (place.current !== null) render(null, place.current);
    },
    [],
  );
  return <div class="own-root" ref={host} />;
}

function rootIn(host: HTMLElement): HTMLElement {
  const root = host.attachShadow({ mode: "open" });
  for (const style of document.head.querySelectorAll("style")) root.append(style.cloneNode(true));
  const own = document.createElement("style");
  // The document around has its own way past its head.
  own.textContent = ".skip{display:none}";
  root.append(own);
  const place = document.createElement("div");
  // The styles ask for the width of the column that the page stands in.
  place.style.container = "page / inline-size";
  root.append(place);
  root.addEventListener("click", (event) => follow(root, event));
  return place;
}

/** A browser looks for the end of a link in the document alone. */
function follow(root: ShadowRoot, event: Event): void {
  const link = event.target instanceof Element ? event.target.closest("a[href^='#']") : null;
  const end = link === null ? null : root.getElementById((link.getAttribute("href") ?? "").slice(1));
  if (end === null) return;
  event.preventDefault();
  end.closest("details")?.setAttribute("open", "");
  end.scrollIntoView();
  if (!end.hasAttribute("tabindex")) end.setAttribute("tabindex", "-1");
  end.focus({ preventScroll: true });
}
