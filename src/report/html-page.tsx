import type { ComponentChildren, VNode } from "preact";
import { renderToString } from "preact-render-to-string";

/** Nothing may be fetched, run, framed or sent: the page is all there is. */
const POLICY =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

/** What makes one page of the three kinds: a report, a plan, a file of testing algorithms. */
export interface HtmlPage {
  readonly language: string;
  readonly title: string;
  readonly styles: string;
  readonly body: VNode;
  /** The document that the page shows, as an element that no browser runs. */
  readonly embedded: string;
}

/** One self-contained HTML file: no script runs in it and nothing is fetched. Same parts, same bytes. */
export function htmlPage({ language, title, styles, body, embedded }: HtmlPage): string {
  return [
    "<!doctype html>",
    `<html lang="${language}">`,
    renderToString(<Head title={title} styles={styles} />),
    `<body>${renderToString(body)}`,
    embedded,
    "</body></html>",
    "",
  ].join("\n");
}

function Head({ title, styles }: Pick<HtmlPage, "title" | "styles">) {
  return (
    <head>
      <meta charSet="utf-8" />
      <meta http-equiv="Content-Security-Policy" content={POLICY} />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="referrer" content="no-referrer" />
      <title>{title}</title>
      <style dangerouslySetInnerHTML={{ __html: styles }} />
    </head>
  );
}

/** What stands around every page's sections: the way past the head, and the line at its foot. */
export function PageFrame(props: { skip: string; foot: string; children: ComponentChildren }) {
  return (
    <>
      <a class="skip" href="#answer">
        {props.skip}
      </a>
      <main>{props.children}</main>
      <footer>
        <p>{props.foot}</p>
      </footer>
    </>
  );
}
