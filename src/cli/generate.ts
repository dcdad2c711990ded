import { fileURLToPath } from "node:url";
import { writeFileWhole } from "./files.ts";
import { publishedSchemas } from "./published-schemas.ts";

/** `npm run generate`: writes the published JSON Schemas. A test fails when they are out of date. */
const home = fileURLToPath(new URL("../../", import.meta.url));
for (const { path, text } of publishedSchemas()) {
  await writeFileWhole(`${home}${path}`, text);
  process.stdout.write(`${path}\n`);
}
