import { useMemo } from "preact/hooks";
import { methodTexts } from "../../../evaluation/catalogue.ts";
import { algorithmContentsOf } from "../../../report/algorithm/contents.ts";
import { AlgorithmPage } from "../../../report/algorithm/page.tsx";
import { planContentsOf } from "../../../report/plan/contents.ts";
import { PlanPage } from "../../../report/plan/page.tsx";
import type { DrawnPage } from "../../work/drawn-page.ts";
import type { ViewProps } from "../view.ts";
import { OwnRoot } from "./own-root.tsx";

interface Props extends Pick<ViewProps, "words"> {
  readonly page: DrawnPage;
}

/** A plan's or an algorithm's page, drawn by its own components. */
export function Drawn({ page, words }: Props) {
  const drawn = useMemo(() => pageOf(page, words), [page, words]);
  return <OwnRoot>{drawn}</OwnRoot>;
}

function pageOf({ figures, ...page }: DrawnPage, { inReport }: ViewProps["words"]) {
  const shared = {
    words: inReport,
    figures: new Map(figures.map((figure) => [figure.name, figure])),
    methodTexts,
  };
  if (page.kind === "plan") {
    const contents = planContentsOf(page.document, inReport);
    return <PlanPage report={{ ...shared, planning: page.document, contents }} />;
  }
  const contents = algorithmContentsOf(page.document, inReport);
  return <AlgorithmPage report={{ ...shared, algorithms: page.document, contents }} />;
}
