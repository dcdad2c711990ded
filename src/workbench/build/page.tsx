import { createHash } from "node:crypto";
import { gzipSync } from "node:zlib";
import { renderToString } from "preact-render-to-string";
import { createStore } from "../state/store.ts";
import { workbenchStyles } from "../styles/styles.ts";
import { Workbench } from "../views/workbench.tsx";
import { en } from "../words/en.ts";
import { nothingOutside } from "./nothing-outside.ts";
import { programText } from "./program.ts";
import { STARTER } from "./starter.ts";

/**
 * The workbench as one HTML file: the first page as markup, the program as data beside it, and a starter.
 * Nothing can be fetched or sent: the policy knows the starter by its hash and the program by the address that
 * the starter gives it.
 *
 * @param root the package's folder
 */
export async function workbenchPage(root: string): Promise<string> {
  const program = gzipSync(await programText(root), { level: 9 }).toString("base64");
  const starter = createHash("sha256").update(STARTER).digest("base64");
  const first = <Workbench store={createStore(nothingOutside(), en)} words={en} />;
  return [
    "<!doctype html>",
    `<html lang="${en.language}">`,
    renderToString(<Head policy={policy(starter)} />),
    `<body><div id="workbench" inert>${renderToString(first)}</div>`,
    renderToString(<CannotStart />),
    `<script type="text/plain" id="program">${program}</script>`,
    `<script>${STARTER}</script>`,
    "</body></html>",
    "",
  ].join("\n");
}

function policy(starter: string): string {
  return [
    "default-src 'none'",
    `script-src 'sha256-${starter}' blob:`,
    "worker-src blob:",
    "style-src 'unsafe-inline'",
    "img-src data: blob:",
    "connect-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
}

function Head({ policy: content }: { policy: string }) {
  return (
    <head>
      <meta charSet="utf-8" />
      <meta http-equiv="Content-Security-Policy" content={content} />
      <meta name="viewport" content="width=device-width, initial-scale=1" />
      <meta name="referrer" content="no-referrer" />
      <title>{en.bench.pageTitle}</title>
      <style dangerouslySetInnerHTML={{ __html: workbenchStyles() }} />
    </head>
  );
}

/** For browsers that can't run the program, or may not run any. */
function CannotStart() {
  return (
    <>
      <noscript>
        <p class="trouble">{en.bench.noScript}</p>
      </noscript>
      <p class="trouble" id="cannot-start" hidden>
        <b>{en.bench.cannotStart}</b> <span id="why" />
      </p>
    </>
  );
}
