import { useState } from "preact/hooks";
import { statedPercent } from "../../../report/formats.ts";
import type { DialScale } from "../../explore/scale.ts";
import type { Words } from "../../words/en.ts";
import type { Live } from "./use-live.ts";

interface Props {
  readonly label: string;
  readonly live: Live;
  readonly scale: DialScale;
  readonly planned: number | null;
  /** Stands before the number. */
  readonly sign?: string;
  readonly words: Words["explore"];
}

/** A share to be moved by a slider or typed in percent. What the plan says stands beside it once it was left. */
export function Dial({ label, live, scale, planned, sign, words }: Props) {
  const [typed, setTyped] = useState<string | null>(null);
  const type = (text: string) => {
    setTyped(text);
    const share = Number(text) / 100;
    if (text.trim() !== "" && share >= 0 && share <= 1) live.move(Number(share.toFixed(8)));
  };
  const slide = (position: number) => {
    setTyped(null);
    live.move(scale.toShare(position));
  };
  const shown = statedPercent(live.value);
  return (
    <div class="dial">
      <input
        type="range"
        min={0}
        max={scale.positions}
        step={1}
        value={scale.toPosition(live.value)}
        aria-label={label}
        aria-valuetext={words.percentValue(shown)}
        onInput={(event) => slide(Number(event.currentTarget.value))}
      />
      <span class="dial-number">
        {sign !== undefined && <span aria-hidden="true">{sign}</span>}
        <input
          type="number"
          min={0}
          max={100}
          step="any"
          value={typed ?? shown}
          aria-label={words.inPercent(label)}
          autocomplete="off"
          onInput={(event) => type(event.currentTarget.value)}
          onBlur={() => setTyped(null)}
        />
        <span aria-hidden="true">%</span>
      </span>
      <span class="dial-planned">
        {planned !== null && planned !== live.value
          ? words.planned(words.percentValue(statedPercent(planned)))
          : ""}
      </span>
    </div>
  );
}
