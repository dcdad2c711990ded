import type { RenderedFigure } from "../../report/render-figures.ts";
import type { Outside, Saved } from "./core.ts";

/** The forms in which a chart is saved. */
export type ChartForm = "svg" | "png" | "vl.json";

/** Each chart as a drawing, as a picture, and as its specification to restyle. */
export async function chartFiles(
  figures: readonly RenderedFigure[],
  picture: Outside["picture"],
): Promise<Saved[]> {
  const files = figures.map(
    async ({ name, spec, svg }): Promise<Saved[]> => [
      { name: `${name}.svg`, content: svg },
      { name: `${name}.png`, content: await picture(svg) },
      { name: `${name}.vl.json`, content: `${JSON.stringify(spec, null, 2)}\n` },
    ],
  );
  return (await Promise.all(files)).flat();
}
