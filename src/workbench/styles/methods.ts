/** The catalogue, and one method: where to begin, form and result, and beside them what is known of it. */
export const METHOD_STYLES = `
.method-find{display:flex;flex-wrap:wrap;gap:.2rem 1.2rem;align-items:end;margin:1.2rem 0 0}
.method-find .field{width:min(20rem,100%)}
.method-list{list-style:none;margin:.2rem 0 0;padding:0}
.method-list li{max-width:none;display:grid;grid-template-columns:minmax(0,1fr);gap:0 1.6rem;border-top:1px solid var(--rule);padding:.4rem 0;align-items:baseline}
.method-list button.plain{text-align:left;font:.95rem/1.4 var(--sans);justify-self:start;margin-left:-.15rem}
.method-list span{color:var(--muted);font-size:.92rem;line-height:1.4}
@container page (min-width:46rem){.method-list li{grid-template-columns:minmax(0,5fr) minmax(0,6fr)}}
main.methods{max-width:72rem}
main.methods>.over>button{font:inherit;font-weight:400;letter-spacing:0;text-transform:none;margin-left:.8rem}
main.methods h1:focus{outline:0}
.method-columns{display:grid;grid-template-columns:minmax(0,1fr);gap:0 3.2rem;align-items:start}
@container page (min-width:62rem){.method-columns{grid-template-columns:minmax(0,1fr) minmax(15rem,19rem)}.method-about{position:sticky;top:1rem}}
.method-columns h2{margin-top:1.8rem}
.method-begin ul{list-style:none;margin:.3rem 0 0;padding:0;font:.92rem/1.4 var(--sans)}
.method-begin li{max-width:none;margin:.15rem 0}
.method-begin button.plain{text-align:left;margin-left:-.15rem}
.method-form .buttons{margin-top:1rem}
.method-state{min-height:1.45em}
.method-expected{border-left:1px solid var(--deep);padding-left:1rem;margin:.6rem 0 1.6rem}
.method-expected>summary{font:.92rem/1.4 var(--sans);cursor:pointer}
.agrees{color:var(--deep)}
.differs-from{color:var(--amber);font-weight:600}
.method-expected td,.values td{font-variant-numeric:tabular-nums}
.values .meaning{text-align:left;white-space:normal;min-width:12rem;max-width:24rem;color:var(--muted)}
.values .interval{color:var(--muted);white-space:nowrap}
.value-part{border-left:1px solid var(--rule);padding-left:1rem}
.method-about{background:var(--wash);padding:.2rem 1.2rem .8rem;margin-top:1.8rem}
.method-about h2{margin:.8rem 0 .2rem;font-size:1.1rem}
.method-about .facts>div{display:block;padding:.35rem 0}
.method-about .formula{white-space:pre-wrap;overflow-wrap:anywhere}
.method-about li{font-size:.86rem;line-height:1.4;margin:.3rem 0}
`.trim();
