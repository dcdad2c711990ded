import { DifferenceStrip, type Margin } from "../figures/difference-strip.tsx";
import { Strip, StripScale } from "../figures/strip.tsx";
import type { StripDomain } from "../figures/strip-scale.ts";
import { FIGURE_WORDS } from "../figures/words.ts";
import type { Limits } from "../formats.ts";
import * as formats from "../formats.ts";
import type { Column } from "./table.tsx";

const WIDTH = 190;
/** Beside another table there is less room. */
export const NARROW_STRIP = 120;

/** A column of strips of shares under one scale. */
export function shareStrips<Row>(
  domain: StripDomain,
  of: (row: Row) => Limits | null,
  width = WIDTH,
): Column<Row> {
  return {
    head: <StripScale domain={domain} width={width} />,
    kind: "figure",
    cell: (row) => {
      const estimate = of(row);
      return estimate === null ? "" : <Strip estimate={estimate} domain={domain} width={width} />;
    },
  };
}

const COEFFICIENT = { ...FIGURE_WORDS.strip, ...FIGURE_WORDS.coefficient };

/** A column of strips of coefficients, on a scale that ends at 1. */
export function coefficientStrips<Row>(
  domain: StripDomain,
  of: (row: Row) => Limits,
  width = WIDTH,
): Column<Row> {
  return {
    head: <StripScale domain={domain} width={width} label={formats.stated} words={COEFFICIENT} />,
    kind: "figure",
    cell: (row) => <Strip estimate={of(row)} domain={domain} width={width} words={COEFFICIENT} />,
  };
}

/** A column of strips of differences in points, with zero and, where there is one, the margin. */
export function differenceStrips<Row>(
  domain: StripDomain,
  of: (row: Row) => Limits,
  margin: (row: Row) => Margin | null = () => null,
): Column<Row> {
  return {
    head: <DifferenceScale domain={domain} width={WIDTH} />,
    kind: "figure",
    cell: (row) => (
      <DifferenceStrip difference={of(row)} margin={margin(row)} domain={domain} width={WIDTH} />
    ),
  };
}

/** The scale above strips of differences. */
export function DifferenceScale({ domain, width }: { domain: StripDomain; width: number }) {
  return (
    <StripScale domain={domain} width={width} label={formats.statedPoints} words={FIGURE_WORDS.difference} />
  );
}
