/** The page around the page: the column at the side where there is room, above where there is not. */
const WIDE = `
.workbench{display:grid;grid-template-columns:16.5rem minmax(0,1fr);min-height:100vh}
.page{container:page/inline-size;min-width:0;outline:0}
.bench{position:sticky;top:0;height:100vh;overflow-y:auto;background:var(--wash);padding:1.7rem 1.25rem 1rem;display:flex;flex-direction:column;font:.84rem/1.45 var(--sans)}
.bench p{max-width:none;margin:0}
.bench-head{display:grid;grid-template-columns:auto 1fr;gap:0 .7rem;align-items:center}
.bench-name{font:600 1.3rem/1.1 var(--serif);letter-spacing:-.01em}
.bench-place{grid-column:1/-1;color:var(--muted);font-size:.76rem;margin-top:.35rem!important}
.sign-lines{stroke:var(--ink);stroke-width:1.3;fill:none}
.sign-cell{fill:var(--deep)}
.sign-dot{fill:none;stroke:var(--deep);stroke-width:1.3}
.parts ul{list-style:none;margin:1.5rem 0 1.2rem;padding:0;position:relative}
.parts li+li .bench-part::after{content:"";position:absolute;left:4px;bottom:calc(100% - 1.02rem);height:100%;width:1px;background:var(--muted)}
.parts li{max-width:none;margin:0}
.bench-part{display:block;position:relative;width:100%;border:0;background:none;padding:.36rem 0 .3rem 1.4rem;text-align:left;color:var(--ink);font:inherit}
.bench-part:hover{background:none;color:var(--ink)}
.bench-part:hover .part-title{text-decoration:underline;text-decoration-thickness:1px;text-underline-offset:.18em}
.bench-part::before{content:"";position:absolute;left:1px;top:1.02rem;width:7px;height:1px;background:var(--muted)}
.bench-part[aria-current]::before{z-index:1;left:-1px;top:.74rem;width:11px;height:11px;border-radius:50%;background:var(--ink);box-shadow:0 0 0 2px var(--wash)}
.part-title{display:block;font:1.05rem/1.3 var(--serif)}
.bench-part[aria-current] .part-title{font-weight:600}
.part-status{display:block;min-height:1.4em;font-size:.76rem;line-height:1.4;color:var(--muted);overflow-wrap:anywhere}
.beside-page{border-top:1px solid var(--rule);padding:.9rem 0}
.bench-foot{margin-top:auto;padding-top:1rem}
.task{min-height:3.3rem;display:grid;grid-template-columns:1fr auto;gap:0 .8rem;align-items:end;padding-bottom:.6rem}
.task-text{display:block;margin-bottom:.35rem}
.history{display:flex;flex-wrap:wrap;gap:0 .7rem;align-items:baseline;border-top:1px solid var(--rule);padding:.45rem 0}
.bench button.plain{margin-left:-.15rem}
.last-step{color:var(--muted);font-size:.76rem;flex-basis:100%;min-height:1.45em;overflow-wrap:anywhere}
.kept{color:var(--muted);font-size:.76rem;border-top:1px solid var(--rule);padding-top:.5rem;min-height:3.6em}
.drop-here{position:fixed;inset:0;background:color-mix(in srgb,var(--paper) 88%,transparent);display:grid;place-items:center;z-index:2}
.drop-here p{font:1.3rem/1.4 var(--serif);border-bottom:1px solid var(--deep);padding:.3rem .1rem;text-align:center}
:root[data-kept] .page,:root[data-kept] .part-status{visibility:hidden}
`;

const NARROW = `
@media screen and (max-width:60rem){
.workbench{display:block}
.bench{position:static;height:auto;padding:.9rem 1.2rem .6rem}
.bench-head{grid-template-columns:auto auto 1fr}
.bench-place{grid-column:auto;margin:0!important;text-align:right}
.parts ul{display:flex;flex-wrap:wrap;gap:0 1.3rem;margin:.6rem 0 .3rem}
.parts ul::before{content:"";position:absolute;left:0;right:0;bottom:.3rem;height:1px;background:var(--muted)}
.parts li+li .bench-part::after{content:none}
.bench-part{padding:.3rem 0 .85rem}
.bench-part::before,.bench-part[aria-current]::before{top:auto}
.bench-part::before{bottom:.13rem;left:50%;width:1px;height:7px}
.bench-part[aria-current]::before{bottom:-.02rem;left:calc(50% - 5px);width:11px;height:11px}
.part-title{font-size:1rem}
.part-status{display:none}
.beside-page{padding:.5rem 0}
.bench-foot{display:grid;grid-template-columns:auto minmax(0,1fr);gap:0 1.2rem;padding-top:.3rem;align-items:center}
.history,.kept{border-top:0;padding:.2rem 0;min-height:0}
.history{grid-area:1/1}
.last-step{display:none}
.task{grid-area:1/2;min-height:2.6rem;padding:0;align-items:center}
.kept{grid-column:1/-1}
}
@media screen and (max-width:30rem){
.bench-place{display:none}
.parts ul{justify-content:space-between;gap:0 .4rem}
}
@media print{.bench,.trouble,.earlier{display:none}.workbench{display:block}.page{container-type:normal}}
`;

export const BENCH_STYLES = [WIDE, NARROW].map((part) => part.trim()).join("\n");
