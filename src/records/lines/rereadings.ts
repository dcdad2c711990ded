import type { DeviceResult, ReadAt, Reread } from "../model.ts";
import type { Reading } from "./device.ts";
import type { Readings } from "./readings.ts";

/** First beside second reading, for each analyte of which both gave a result, of devices that count. */
export function rereadings({ again }: Readings): Reread[] {
  return again
    .filter(({ first }) => first.device.reason === null)
    .flatMap(({ first, second }) =>
      first.results.flatMap((result, at): Reread[] => {
        const other = second.results[at] ?? null;
        if (result === null || other === null) return [];
        const { device, person, analyte, kit, specimen } = result;
        const { reader } = first;
        const read = { first: readAt(first, result), second: readAt(second, other) };
        return [{ device, person, analyte, kit, specimen, reader, ...read }];
      }),
    );
}

function readAt({ window, minutes }: Reading, { result }: DeviceResult): ReadAt {
  return { result, window, minutes };
}
