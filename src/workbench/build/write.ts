import { mkdir, rename, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { workbenchPage } from "./page.tsx";

/** Writes the page into `dist/`: part of `npm run build`. */
const root = fileURLToPath(new URL("../../../", import.meta.url));
const page = await workbenchPage(root);
await mkdir(`${root}dist`, { recursive: true });
await writeFile(`${root}dist/workbench.html.tmp`, page);
await rename(`${root}dist/workbench.html.tmp`, `${root}dist/workbench.html`);
