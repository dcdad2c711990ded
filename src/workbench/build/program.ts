import { build } from "esbuild";

/** The program of the page and of its worker, as one plain script. Same sources, same text. */
export async function programText(root: string): Promise<Uint8Array> {
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: ["src/workbench/main.tsx"],
    bundle: true,
    minify: true,
    format: "iife",
    platform: "browser",
    target: "es2022",
    jsx: "automatic",
    jsxImportSource: "preact",
    legalComments: "none",
    charset: "utf8",
    define: { "process.env.NODE_ENV": '"production"' },
    write: false,
    logLevel: "error",
  });
  const program = outputFiles[0];
  if (program === undefined) throw new Error("the bundler wrote nothing");
  return program.contents;
}
