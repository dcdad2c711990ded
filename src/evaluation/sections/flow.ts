import type { PairedSet } from "../../records/model.ts";
import { cellOf, peopleIn } from "../cells.ts";
import type { Flow } from "../document.ts";
import type { Worktop } from "../worktop.ts";

/** People from enrolment to the fourfold table of the primary analysis, for one cell. */
export function flowSection(worktop: Worktop, set: PairedSet): Flow {
  const counted = worktop.tally(set);
  const before = set.before.map(({ reason, people }) => ({ reason, people }));
  const notReached = before.reduce((total, { people }) => total + people, 0);
  const rapidNotDone = peopleIn(set, (pair) => pair.rapid === "not_done");
  const branches = (["reactive", "nonreactive", "invalid"] as const).map((rapid) => {
    const reference = { ...counted.crossTabulation[rapid] };
    return {
      rapid,
      people: Object.values(reference).reduce((total, people) => total + people, 0),
      reference,
    };
  });
  return {
    ...cellOf(set),
    enrolled: counted.people + notReached,
    before,
    eligible: counted.people,
    rapidNotDone,
    tested: counted.people - rapidNotDone,
    firstInvalid: peopleIn(set, (pair) => pair.firstRapid === "invalid"),
    branches,
    outsideWindow: {
      people: peopleIn(
        set,
        (pair) => pair.rapid !== "not_done" && (pair.window === "early" || pair.window === "late"),
      ),
      treatment: worktop.treatment.outsideWindow,
    },
    analysed: counted.analysed,
    setAside: counted.setAside.map(({ reason, people }) => ({ reason, people })),
  };
}
