/** The pages of the workbench's own parts; the report brings its styles along. */
export const VIEW_STYLES = `
@media screen{.view-report .evidence{content-visibility:auto;contain-intrinsic-size:auto 50rem}}
.view>main:last-child{padding-bottom:4rem}
.ways{display:grid;grid-template-columns:minmax(0,1fr);gap:0 4rem}
@container page (min-width:54rem){.ways{grid-template-columns:minmax(0,5fr) minmax(0,6fr)}}
.begin h2{margin-top:2rem}
.begin .buttons{margin:.9rem 0}
.blank{margin:1rem 0 1.2rem}
.blank input{width:100%;text-align:right;font-size:1.5rem;line-height:1.15;font-weight:600;padding:.1rem .1rem;appearance:textfield;-moz-appearance:textfield}
.blank input::-webkit-inner-spin-button{appearance:none;margin:0}
.fig-fourfold.blank .fig-one-of-four{min-width:6rem;width:10rem}
.fig-fourfold.blank thead th:not(.fig-over){padding-right:.9rem}
.fig-right input{color:var(--deep)}
.fig-wrong input{color:var(--amber)}
.about{display:grid;grid-template-columns:repeat(auto-fill,minmax(13rem,1fr));gap:.75rem 1.6rem}
.issues td,.issues th{vertical-align:top}
.issues th{max-width:26rem}
.issues td{max-width:18rem;overflow-wrap:anywhere}
.to-save{border-top:1px solid var(--rule);margin-top:.9rem;padding-top:.8rem}
.to-save h2{margin:0;font-size:1.1rem}
.to-save .table{margin-top:.6rem}
@container page (min-width:46rem){.to-save{display:grid;grid-template-columns:minmax(0,1fr) auto;gap:0 2rem;align-items:start}.to-save>h2,.to-save>p:not(.buttons){grid-column:1}.to-save>.buttons{grid-area:1/2/span 2;margin:.2rem 0}.to-save>.table{grid-column:1/-1}}
`.trim();
