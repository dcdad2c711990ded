import { SANS } from "./page.ts";

/** A text as a CSS string: every sign that is not a plain letter, digit or space is written as its code. */
export function cssString(text: string): string {
  const escaped = [...text].map((sign) =>
    /[A-Za-z0-9 ]/.test(sign) ? sign : `\\${(sign.codePointAt(0) ?? 32).toString(16)} `,
  );
  return `"${escaped.join("")}"`;
}

const PRINTED = `
html{font-size:9.2pt}
main,footer{max-width:none;padding:0}
.skip,.contents,details.aside{display:none}
p,li,dd,.headline,h1,.sub{max-width:none}
h1,h2,h3,h4{break-after:avoid}
.lead,.evidence>h2+p,h3+p,.map-title,h3+.drawing{break-after:avoid}
details.printed>summary,thead,tr.group{break-after:avoid}
.evidence>h2+p+p{break-before:avoid}
.drawing .fig-chart{width:46rem;height:auto}
.how{break-before:avoid}
tr,figure,.facts>div,.care li,.method,svg{break-inside:avoid}
thead{display:table-header-group}
.table,.drawing{overflow:visible}
a{color:inherit;text-decoration:none}
p{break-inside:avoid}
details.printed>summary{list-style:none}
details::details-content{content-visibility:visible;block-size:auto}
.evidence{margin-top:1.6rem}
.table-block:not(.long),.method,details.printed:not(.long),.part>h3+:not(.long){break-inside:avoid}
#flow .fig-wide{width:76%;height:auto}
h1{font-size:1.9rem}
h2{margin-top:1.5rem}
main{padding-top:0}
.over{margin-bottom:.5rem}
.headline{margin-bottom:.6rem}
#answer h2{margin-top:1.1rem}
.fig-strip,.fig-lines{zoom:.77}
.fig-lines{left:.78rem}
.answers .fig-strip{width:11.6rem;zoom:1}
#people .fig-strip{zoom:1}
.beside{gap:.2rem 1rem}
.beside .fig-strip{zoom:.62}
.beside th,.beside td,.beside .fig-fourfold th,.beside .fig-fourfold td{padding-left:.3rem;padding-right:.3rem}
.beside .fig-fourfold .fig-one-of-four{min-width:4.4rem;padding:.3rem .4rem}
.beside .table-block tbody th{max-width:8.6rem}
.beside .limits{min-width:6em;margin-left:.4em}
.answers .said>td{font-size:.89rem}
.how{font-size:.84rem}
.answers th,.answers td{line-height:1.25}
.answers .measured{break-after:avoid}
.answers .verdict.not-met{text-underline-offset:1.5px}
.answers .measured>*{padding-top:.22rem}
.answers .said>td{padding-bottom:.17rem}
.answers .measured>.analyte{padding-top:.34rem}
th,td{padding-top:.2rem;padding-bottom:.2rem}
#people h2{margin-top:.8rem}
#people .table-block{margin:.2rem 0}
#people td,#people th{padding-top:.08rem;padding-bottom:.08rem}
.care{margin-top:.7rem;padding:.1rem .9rem .4rem;font-size:.95rem}
.care h2{margin:.4rem 0 .15rem}
.care ul{columns:2;column-gap:1.6rem}
.care li{margin:.08rem 0;line-height:1.32;break-inside:avoid}
footer{display:none}
`;

/** A4 or Letter, whichever the printer holds; a line at head and foot of every page. */
export function printStyles(running: string, foot: string): string {
  const small = `font:7.5pt ${SANS};color:#5b6670`;
  return [
    `@page{margin:15mm 16mm 14mm;@top-left{content:${cssString(running)};${small}}@bottom-left{content:${cssString(foot)};${small}}@bottom-right{content:counter(page) " / " counter(pages);${small}}}`,
    "@page:first{margin-top:10mm;@top-left{content:none}}",
    `@media print{${PRINTED.trim()}}`,
  ].join("\n");
}
