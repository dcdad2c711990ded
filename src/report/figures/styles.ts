import { DARK_INKS, type Inks, inkVariables, LIGHT_INKS } from "../../figures/inks.ts";

/** The inks as variables: light, dark by the reader's system or by `data-theme`, light in print. */
const INK_STYLES = [
  `:root{${inkVariables(LIGHT_INKS)}color-scheme:light dark}`,
  `@media screen and (prefers-color-scheme:dark){:root:not([data-theme="light"]){${inkVariables(DARK_INKS)}}}`,
  `@media screen{:root[data-theme="dark"]{${inkVariables(DARK_INKS)}color-scheme:dark}:root[data-theme="light"]{color-scheme:light}}`,
].join("\n");

/** Figures drawn by components carry classes only. */
export const DRAWN_STYLES = `
.fig{display:block;max-width:100%;height:auto;overflow:visible;font-family:var(--sans,system-ui,sans-serif);font-variant-numeric:tabular-nums}
.fig-drawn{fill:none}
.fig-drawn text{fill:var(--ink);font-size:12px}
.fig-drawn .fig-label{fill:var(--muted);font-size:10.5px}
.fig-scroll{overflow-x:auto}
@media screen and (max-width:45rem){.fig-wide,.fig-chart{max-width:none}}
.fig-strip{max-width:none;flex:none}
.fig-drawn .fig-axis{stroke:var(--rule);stroke-width:1}
.fig-drawn .fig-nothing{stroke:var(--muted);stroke-dasharray:1 4}
.fig-drawn .fig-zero{stroke:var(--muted);stroke-width:1;stroke-dasharray:2 2}
.fig-drawn .fig-scale{stroke:var(--muted);stroke-width:1}
.fig-drawn .fig-criterion{stroke:var(--amber);stroke-width:1.5}
.fig-drawn .fig-arrow{stroke:var(--deep);stroke-width:1.4}
.fig-drawn .fig-interval{stroke:none;fill:var(--deep)}
.fig-drawn .fig-undecided,.fig-drawn .fig-not-estimable{fill:var(--pale);stroke:var(--deep);stroke-width:.5}
.fig-drawn .fig-not-met{fill:var(--paper);stroke:var(--ink);stroke-width:1.1}
.fig-drawn .fig-hollow{fill:var(--paper);stroke:var(--muted);stroke-width:1}
.fig-drawn .fig-tick{stroke:var(--muted);stroke-width:1.4}
.fig-drawn .fig-out{stroke:var(--muted);stroke-width:1.2}
.fig-drawn .fig-line{stroke:var(--muted);stroke-width:1}
.fig-drawn .fig-box{fill:var(--paper);stroke:var(--muted);stroke-width:1}
.fig-drawn .fig-box-empty{stroke-dasharray:2 3}
.fig-drawn .fig-strong{font-weight:600}
.fig-drawn .fig-second{fill:var(--muted)}
.fig-drawn .fig-true,.fig-drawn .fig-full{fill:var(--deep)}
.fig-drawn .fig-false{fill:var(--ochre)}
.fig-drawn .fig-ring{fill:var(--paper);stroke:var(--deep);stroke-width:1.4}
.fig-drawn .fig-person{stroke-linecap:round}
.fig-drawn .fig-found{stroke:var(--deep);stroke-width:6.6}
.fig-drawn .fig-missed{stroke:var(--deep);stroke-width:1.5}
.fig-drawn .fig-false-alarm{fill:var(--ochre);stroke:var(--amber);stroke-width:.8}
.fig-drawn .fig-rest{stroke:var(--muted);stroke-width:2;stroke-opacity:.7}
.fig-drawn .fig-window{fill:var(--wash);stroke:var(--muted);stroke-width:1}
.fig-drawn .fig-control-line{stroke:var(--ink);stroke-width:3}
.fig-drawn .fig-test-line{stroke:var(--deep);stroke-width:3}
.fig-drawn .fig-absent-line{stroke:var(--muted);stroke-width:1;stroke-dasharray:1 3}
.fig-drawn .fig-estimate{fill:var(--ink);stroke:var(--paper);stroke-width:1.2}
.fig-drawn .fig-halo{stroke:var(--paper);stroke-width:4}
.fig-drawn .fig-estimate-tick{stroke:var(--ink);stroke-width:1.8}
`;

/** Tables of strips. */
const TABLES = `
.fig-forest{border-collapse:collapse;font:.86rem/1.3 var(--sans,system-ui,sans-serif);font-variant-numeric:tabular-nums;color:var(--ink)}
.fig-forest caption{text-align:left;color:var(--muted);padding-bottom:.5rem}
.fig-forest th,.fig-forest td{text-align:left;font-weight:400;padding:.2rem .7rem .2rem 0;vertical-align:middle}
.fig-forest thead th{color:var(--muted);font-size:.76rem;vertical-align:bottom;border-bottom:1px solid var(--ink);padding-bottom:0}
.fig-forest thead th:not(.fig-strips){padding-bottom:.3rem}
.fig-forest .fig-number{text-align:right;white-space:nowrap}
.fig-forest .fig-limits{color:var(--muted);white-space:nowrap}
.fig-forest .fig-value{font-weight:600;padding-right:.4rem}
.fig-forest .fig-strips{padding:0 0 0 .6rem;position:relative}
.fig-lines{position:absolute;top:0;left:.6rem;height:100%}
.fig-lines path{vector-effect:non-scaling-stroke}
.fig-overall-line{stroke:var(--ink);stroke-width:1;stroke-dasharray:1 3}
.fig-criterion-line{stroke:var(--amber);stroke-width:1}
.fig-strip{position:relative}
.fig-forest thead .fig-strips span{display:block;padding-left:12px}
.fig-forest tbody .fig-overall>*{font-weight:600;border-bottom:1px solid var(--rule)}
.fig-forest tbody .fig-overall .fig-limits{font-weight:400}
.fig-forest .fig-stratum th{font-weight:600;padding-top:.9rem}
.fig-forest .fig-group th{padding-left:1.1rem;min-width:9rem;max-width:20rem}
.fig-forest .fig-plan{font-weight:400;color:var(--muted);margin-left:.6rem;font-size:.76rem}
.fig-forest .fig-exploratory .fig-group th{font-style:italic}
.fig-forest tfoot td{border-top:1px solid var(--ink);color:var(--muted);font-size:.76rem;padding-top:.4rem}
.fig-fourfold{border-collapse:collapse;font:.86rem/1.3 var(--sans,system-ui,sans-serif);font-variant-numeric:tabular-nums;color:var(--ink)}
.fig-fourfold caption{text-align:left;color:var(--muted);padding-bottom:.5rem}
.fig-fourfold th,.fig-fourfold td{font-weight:400;text-align:right;padding:.35rem .9rem;vertical-align:baseline}
.fig-fourfold thead th{color:var(--muted);font-size:.76rem}
.fig-fourfold thead .fig-over{color:var(--ink);font-size:.86rem;font-weight:600;text-align:center}
.fig-fourfold th:first-child,.fig-fourfold thead th.fig-over:first-child{text-align:left;padding-left:0}
.fig-fourfold tbody th{white-space:nowrap}
.fig-fourfold .fig-one-of-four{padding:.6rem .9rem .6rem 1.6rem;min-width:8rem}
.fig-fourfold .fig-one-of-four b{display:block;font-size:1.5rem;line-height:1.15;font-weight:600}
.fig-fourfold .fig-one-of-four span{display:block;font-size:.76rem;color:var(--muted)}
.fig-fourfold .fig-right b{color:var(--deep)}
.fig-fourfold .fig-wrong b{color:var(--amber)}
.fig-fourfold .fig-one-of-four.fig-positive{border-right:1px solid var(--ink)}
.fig-fourfold .fig-reactive .fig-one-of-four{border-bottom:1px solid var(--ink)}
.fig-fourfold .fig-margin,.fig-fourfold tfoot td,.fig-fourfold tfoot th{color:var(--muted)}
.fig-fourfold tfoot>tr>*{border-top:1px solid var(--rule)}
@media print{.fig-fourfold,.fig-wide{break-inside:avoid}.fig-forest tbody{break-inside:avoid}}
`;

/** Figures drawn by Vega carry the light inks themselves (so that they can leave the page); here they follow the theme. */
function chartRules(inks: Inks): string {
  return Object.entries(inks)
    .map(
      ([name, value]) =>
        `.fig-chart [fill="${value}"]{fill:var(--${name})}.fig-chart [stroke="${value}"]{stroke:var(--${name})}`,
    )
    .join("");
}

/** All that figures need; the page shell sets it once. */
export const FIGURE_STYLES = [INK_STYLES, DRAWN_STYLES.trim(), TABLES.trim(), chartRules(LIGHT_INKS)].join(
  "\n",
);
