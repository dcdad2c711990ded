import type { Answer } from "../../evaluation/document.ts";
import type { Shared } from "../context.ts";
import { Verdict } from "./verdict.tsx";

/** A sentence in which verdicts keep their weight. */
export function Pieces(props: {
  report: Shared;
  of: readonly (string | { readonly verdict: Answer["verdict"] })[];
}) {
  return (
    <>
      {props.of.map((piece, place) =>
        typeof piece === "string" ? (
          piece
        ) : (
          <Verdict key={place} report={props.report} verdict={piece.verdict} />
        ),
      )}
    </>
  );
}
