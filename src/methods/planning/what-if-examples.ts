import type { WorkedExample } from "../../core/method.ts";

export const whatIfExamples: readonly [WorkedExample, ...WorkedExample[]] = [
  {
    name: "99 % and 98 % expected against 95 % and 90 %, at 2 % and 30 % prevalence",
    input: {
      expected: [0.99, 0.98],
      thresholds: [0.95, 0.9],
      prevalences: [0.02, 0.3],
      direction: "at_least",
    },
    options: { method: "wilson", usable: 0.95, horizon: 800 },
    expect: {
      "cells.0.stays": 173,
      "cells.0.enrol.0.expected": 9106,
      "cells.0.enrol.0.assured": 9994,
      "cells.0.enrol.1.expected": 608,
      "cells.0.enrol.1.assured": 658,
      "cells.1.stays": 53,
      "cells.1.enrol.1.assured": 214,
    },
    tolerance: { relative: 0 },
    source: "flahault2005",
    recomputedBy: "R 4.2.2: prop.test and pbinom at every total up to 800, qnbinom",
    memory: true,
  },
  {
    name: "nothing to find where what is expected is what is demanded",
    input: { expected: [0.95], thresholds: [0.95], prevalences: [0.1], direction: "at_least" },
    expect: { "cells.0.first": null, "cells.0.stays": null, "cells.0.enrol.0.assured": null },
    tolerance: { relative: 0 },
    source: "no publication: by definition",
  },
];
