/** The controls beside the report. What they change has its room from the beginning, so that nothing jumps. */
export const EXPLORE_STYLES = `
.explore h2{font:1.05rem/1.3 var(--serif);font-weight:600;margin:0 0 .2rem}
.explore-state{min-height:2.8em;color:var(--muted);font-size:.78rem}
.explore details{border-top:1px solid var(--rule);margin:0;padding:.15rem 0}
.explore details:first-of-type{margin-top:.5rem}
.explore summary{color:var(--ink);font-size:.88rem;padding:.3rem 0}
.explore details[open]{padding-bottom:.8rem}
.explore-changed{color:var(--amber);font-size:.76rem;margin-left:.3rem}
.explore .field+.field{margin-top:.5rem}
.explore select{text-overflow:ellipsis}
.dial{display:grid;grid-template-columns:minmax(0,1fr) auto;gap:0 .6rem;align-items:center;margin-top:.35rem}
.dial input[type=range]{width:100%;padding:0;margin:0;border:0;background:none;accent-color:var(--deep);min-height:2rem}
.dial-number{white-space:nowrap;font:.88rem/1.4 var(--sans);color:var(--muted)}
.dial-number>span:first-child{margin-right:.2rem}
.dial-number input{width:3.6rem;text-align:right;appearance:textfield;-moz-appearance:textfield}
.dial-number input::-webkit-inner-spin-button{appearance:none;margin:0}
.dial-planned{grid-column:1/-1;min-height:1.4em;font-size:.76rem;line-height:1.4;color:var(--muted);text-align:right}
.live-trust{margin:.1rem 0 0;font:.8rem/1.4 var(--sans);font-variant-numeric:tabular-nums}
.live-trust dt{color:var(--muted);margin-top:.35rem}
.live-trust dd{margin:0;max-width:none}
.live-trust dd>span{display:block;min-height:1.4em}
.live-trust .fig{margin:.2rem 0}
.live-trust .live-from{color:var(--muted);font-size:.76rem;margin-top:.45rem}
.threshold{border:0;margin:.3rem 0 0;padding:0;min-width:0}
.threshold+.threshold{border-top:1px dotted var(--rule);padding-top:.3rem}
.threshold legend{font:.8rem/1.35 var(--sans);padding:0;float:left;width:100%}
.threshold .dial{clear:both;margin:0}
.live-verdict{display:flex;justify-content:space-between;gap:.6rem;font:.8rem/1.4 var(--sans);font-variant-numeric:tabular-nums}
.threshold .fig-strip{margin:0}
.tick{display:flex;gap:.5rem;align-items:center;min-height:1.9rem;font:.84rem/1.35 var(--sans)}
.tick input{min-height:0;width:1.05rem;height:1.05rem;accent-color:var(--deep)}
.differs{border-top:1px solid var(--rule);padding-top:.5rem;font-size:.78rem}
.differs h3{font:600 .8rem/1.4 var(--sans);margin:0}
.differs ul{list-style:none;margin:.2rem 0 0;padding:0}
.differs li{margin:.25rem 0;max-width:none}
@media screen and (min-width:60.01rem){.bench:has(.explore) .bench-foot{position:sticky;bottom:-1rem;background:var(--wash);padding-bottom:1rem;margin-bottom:-1rem}.bench:has(.explore) .parts ul{margin:1rem 0 .7rem}}
@media screen and (max-width:60rem){.explore-state{min-height:0}.explore{display:grid;grid-template-columns:repeat(auto-fill,minmax(15rem,1fr));gap:0 1.4rem}.explore>h2,.explore>p,.explore>button,.explore>.differs{grid-column:1/-1;justify-self:start}.explore details:first-of-type{margin-top:0}}
`.trim();
