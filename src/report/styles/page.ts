/** The system's own sans-serif faces, in order of liking. */
export const SANS =
  '-apple-system,BlinkMacSystemFont,"Segoe UI",Roboto,"Noto Sans","Helvetica Neue","Liberation Sans",Arial,system-ui,sans-serif';

/** Two voices: a book serif for sentences, the system's sans with tabular figures for tables and labels. */
const VOICES = `
:root{
--serif:Charter,"Bitstream Charter","Iowan Old Style","Source Serif 4",Cambria,Georgia,"Liberation Serif",serif;
--sans:${SANS}}`;

const GROUND = `
*{box-sizing:border-box}
html{background:var(--paper);color:var(--ink);font:100%/1.5 var(--serif);-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0}
main,footer{max-width:62.4rem;margin:0 auto;padding:0 1.2rem}
main{padding-top:2.6rem}
p,li,dd{max-width:44rem}
p{margin:.45rem 0}
a{color:var(--deep);text-underline-offset:.15em;text-decoration-thickness:1px}
:focus-visible{outline:2px solid var(--deep);outline-offset:3px}
code,.formula{font-family:ui-monospace,"SF Mono",Menlo,Consolas,"Liberation Mono",monospace;font-size:.86em}
code{overflow-wrap:anywhere}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.skip{position:absolute;left:-100vw}
.skip:focus{left:1rem;top:.6rem;background:var(--paper);padding:.3rem .6rem;z-index:1}
`;

const HEADINGS = `
h1{font-size:2.05rem;line-height:1.15;font-weight:600;letter-spacing:-.012em;margin:0 0 .35rem;max-width:52rem;text-wrap:balance}
h2{font-size:1.28rem;line-height:1.25;font-weight:600;margin:2.5rem 0 .45rem}
h3{font-size:1.05rem;line-height:1.3;font-weight:600;margin:1.9rem 0 .35rem}
h4{font-size:1rem;font-weight:600;margin:1.4rem 0 .2rem}
.over{font:600 .74rem/1.2 var(--sans);letter-spacing:.055em;text-transform:uppercase;color:var(--muted);margin:0 0 .8rem}
.sub{color:var(--muted);max-width:52rem}
.headline{font-size:1.2rem;line-height:1.42;max-width:50rem;margin:.35rem 0 1rem;text-wrap:pretty}
.together{font-size:1.02rem;max-width:50rem;margin:-.4rem 0 1rem;text-wrap:pretty}
.evidence{border-top:1px solid var(--rule);margin-top:2.8rem}
.evidence>h2{margin-top:1.5rem}
h2 .number{color:var(--muted);font-weight:400;margin-right:.35rem}
`;

const BLOCKS = `
.how,.notes{color:var(--muted);font-size:.88rem;line-height:1.45}
.notes{margin:.4rem 0;padding-left:1.1rem}
.care{background:var(--wash);padding:.2rem 1.3rem .9rem;margin:2.2rem 0 0}
.care h2{margin-top:.9rem;font-size:1.15rem}
.care ul{list-style:none;margin:0;padding:0}
.care li{margin:.32rem 0;max-width:none;text-wrap:pretty}
.further{color:var(--muted);font-size:.92em;white-space:nowrap}
.contents{margin:1.6rem 0 0;font:.84rem/1.9 var(--sans)}
.contents ol{list-style:none;margin:0;padding:0;display:flex;flex-wrap:wrap;gap:0 1.15rem}
.contents a{text-decoration:none;color:var(--ink);white-space:nowrap}
.contents a:hover{text-decoration:underline}
.contents .number{color:var(--muted)}
.facts{margin:.5rem 0;font-size:.95rem}
.facts>div{display:grid;grid-template-columns:11.5rem 1fr;gap:0 1rem;padding:.22rem 0}
.facts dt{font:.82rem/1.7 var(--sans);color:var(--muted)}
.facts dd{margin:0}
.facts ul{margin:0;padding-left:1rem}
.found{margin:.3rem 0;padding-left:1.2rem}
.found li{margin:.15rem 0}
.cautions li{margin:.3rem 0}
.memory{color:var(--muted)}
figure{margin:1rem 0}
.drawing{overflow-x:auto}
.fig-chart text{font-family:var(--sans)}
details{margin:.5rem 0}
summary{cursor:pointer;font:.84rem/1.5 var(--sans);color:var(--muted)}
details.printed>summary{color:var(--ink);font-weight:600}
footer{margin-top:3rem;padding-bottom:2.5rem}
footer p{border-top:1px solid var(--rule);padding-top:.6rem;font:.76rem/1.5 var(--sans);color:var(--muted);max-width:none}
@media(max-width:40rem){
main{padding-top:1.4rem}
h1{font-size:1.55rem}
.headline{font-size:1.1rem}
.care{margin-left:-1.2rem;margin-right:-1.2rem;padding:.2rem 1.2rem .8rem}
.facts>div{grid-template-columns:1fr}
}
`;

export const PAGE_STYLES = [VOICES, GROUND, HEADINGS, BLOCKS].map((part) => part.trim()).join("\n");
