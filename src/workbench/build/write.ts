import { mkdir, rename, writeFile } from "node:fs/promises";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { workbenchPage } from "./page.tsx";

/** Writes the page, into `dist/` unless another file is named: part of `npm run build`. */
const root = fileURLToPath(new URL("../../../", import.meta.url));
const file = process.argv[2] ?? `${root}dist/workbench.html`;
const page = await workbenchPage(root);
await mkdir(dirname(file), { recursive: true });
await writeFile(`${file}.tmp`, page);
await rename(`${file}.tmp`, file);
