import { STORAGE_KEY } from "../state/storage.ts";

/**
 * The one script in the page's text. The first page is on the screen already; the starter inflates the program
 * that lies beside it as data, gives it an address, and runs it. Where that fails it says so.
 */
export const STARTER = `
const failed = (error) => {
  delete document.documentElement.dataset.kept;
  document.getElementById("cannot-start").hidden = false;
  document.getElementById("why").textContent = String(error);
};
const start = async () => {
  const signs = atob(document.getElementById("program").textContent);
  const packed = new Uint8Array(signs.length);
  for (let at = 0; at < signs.length; at++) packed[at] = signs.charCodeAt(at);
  const inflated = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  const text = await new Response(inflated).arrayBuffer();
  const script = document.createElement("script");
  script.onerror = failed;
  script.src = URL.createObjectURL(new Blob([text], { type: "text/javascript" }));
  document.body.append(script);
};
try {
  if (localStorage.getItem(${JSON.stringify(STORAGE_KEY)}) !== null) document.documentElement.dataset.kept = "";
} catch {}
requestAnimationFrame(() => setTimeout(() => start().catch(failed)));
`;
