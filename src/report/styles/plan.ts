/** What a plan's page needs beyond the report's own styles. */
export const PLAN_STYLES = `
.answers.planned .fig-strip{width:13.375rem}
.looks{margin:.4rem 0;padding-left:1.1rem}
.heat-1{background:color-mix(in srgb,var(--pale) 18%,transparent)}
.heat-2{background:color-mix(in srgb,var(--pale) 42%,transparent)}
.heat-3{background:color-mix(in srgb,var(--pale) 70%,transparent)}
.heat-4{background:var(--pale)}
.heated td{padding:0}
.heated td>span{display:block;padding:.36rem .7rem}
.heated td .own{outline:1.5px solid var(--ink);outline-offset:-2px;font-weight:700}
@media print{.heated td>span{padding:.2rem .6rem;print-color-adjust:exact}}
`.trim();
