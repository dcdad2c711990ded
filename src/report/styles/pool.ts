/** What the page of pooled studies needs beyond the report's own styles. */
export const POOL_STYLES = `
.fig-drawn .fig-place{stroke:var(--deep);stroke-width:1.3}
.question{font-style:italic;max-width:50rem}
.care.pooled{margin:1rem 0 1.3rem;padding:.5rem 1.3rem .6rem}
.care.pooled h3{margin:.2rem 0 .3rem;font-size:1.02rem}
.answers.pooled .fig-strip{width:15.9rem}
.answers.pooled .measure{min-width:9rem}
.answers.pooled .first .measure,.answers.pooled .first .estimate{font-weight:600}
.fig-paired{width:100%}
.fig-paired th,.fig-paired td{padding-top:0;padding-bottom:0}
.fig-forest.fig-paired .fig-group th,.fig-forest.fig-paired .fig-single th{min-width:0;white-space:nowrap;padding-right:0}
.fig-paired .fig-begin{padding-left:.8rem;padding-right:.1rem}
.fig-paired .limits{min-width:5.9em;margin-left:.4em}
.fig-paired thead th.fig-number{padding-bottom:.3rem}
.fig-forest.fig-paired tbody .fig-summary>*{font-weight:600;background:var(--wash);border-top:1px solid var(--rule);border-bottom:1px solid var(--rule)}
.fig-forest.fig-paired tbody .fig-summary .limits{font-weight:400}
.fig-forest.fig-paired tbody .fig-summary th{padding-left:1.1rem}
.fig-forest.fig-paired .fig-summaries .fig-summary>*{border-top:1px solid var(--ink)}
@media screen and (max-width:48rem){
.fig-forest.fig-paired tbody tr[class]>th[scope="row"]{white-space:normal;max-width:7.4rem;min-width:6rem;padding-left:.5rem}
.fig-forest.fig-paired tbody .fig-stratum th{padding-left:0}
.fig-paired .fig-begin{padding-left:.4rem}
.answers.pooled .measured>.alone{grid-area:calc(var(--line) + 2)/1;text-align:left}
}
.moved{display:inline-flex;gap:.5rem;align-items:center;white-space:nowrap}
@media print{.fig-forest.fig-paired tbody{break-inside:auto}.fig-forest.fig-paired tr{break-inside:avoid}}
`.trim();
