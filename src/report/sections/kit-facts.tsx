import { hasLines, type Kit } from "../../records/kit.ts";
import type { Report } from "../context.ts";
import * as formats from "../formats.ts";
import { specimenTitle } from "../names.ts";
import { Facts } from "../parts/facts.tsx";

/** What the instructions for use say of the kit, as the kit file states it. */
export function KitFacts({ report, kit }: { report: Report; kit: Kit }) {
  const { study: words, codes } = report.words;
  const { facts } = words;
  const { instrument, source } = kit;
  return (
    <Facts
      items={[
        [facts.intendedUse, kit.intended_use],
        [
          facts.specimen,
          kit.specimens
            .map(({ type, volume_ul: volume }) =>
              volume === undefined
                ? specimenTitle(report, type)
                : `${specimenTitle(report, type)}, ${words.volume(volume.from, volume.to)}`,
            )
            .join("; "),
        ],
        [
          facts.waiting,
          kit.waiting === undefined ? null : words.minutes(kit.waiting.from_minutes, kit.waiting.to_minutes),
        ],
        [
          facts.drops,
          kit.buffer_drops === undefined ? null : words.drops(kit.buffer_drops.from, kit.buffer_drops.to),
        ],
        [
          facts.window,
          hasLines(kit)
            ? words.window(
                kit.reading_window.from_minutes,
                kit.reading_window.to_minutes,
                codes.timedFrom[kit.timed_from],
              )
            : null,
        ],
        [facts.faint, hasLines(kit) ? codes.faint[kit.faint_line] : null],
        [facts.repeat, words.repeats(kit.repeat.max_attempts)],
        [
          facts.temperature,
          kit.temperature_c === undefined
            ? null
            : words.temperature(kit.temperature_c.from, kit.temperature_c.to),
        ],
        [
          facts.useWithin,
          kit.use_within_minutes === undefined ? null : words.useWithin(kit.use_within_minutes),
        ],
        [
          facts.instrument,
          instrument === undefined
            ? null
            : words.instrument(
                instrument.title,
                Object.entries(instrument.cutoffs).map(([line, cutoff]) =>
                  words.cutoff(line, formats.stated(cutoff)),
                ),
                instrument.unit,
                instrument.version,
              ),
        ],
        [facts.source, words.source(source.title, source.version, source.page)],
      ]}
    />
  );
}
