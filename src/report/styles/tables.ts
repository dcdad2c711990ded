/** Horizontal rules only; tables as wide as their content; numbers to the right. */
const TABLES = `
.table-block{margin:.9rem 0}
.table{overflow-x:auto;position:relative}
.lead{margin-bottom:.4rem}
.table caption{text-align:left}
.fig-fourfold caption{display:none}
.fig-fourfold th,.fig-fourfold td{vertical-align:middle}
table{border-collapse:collapse;font:.86rem/1.35 var(--sans);font-variant-numeric:tabular-nums}
th,td{text-align:left;vertical-align:baseline;font-weight:400;padding:.36rem .6rem}
tr>:first-child{padding-left:0}
tr>:last-child{padding-right:0}
thead th{color:var(--muted);font-size:.77rem;line-height:1.25;vertical-align:bottom;border-bottom:1px solid var(--ink)}
tbody th{font-weight:600}
tbody+tbody>tr:first-child>*{border-top:1px solid var(--rule)}
table>tbody:last-of-type>tr:last-child>*{border-bottom:1px solid var(--ink)}
tr.group th{font-weight:600;padding-bottom:.1rem}
tr.group~tr th{font-weight:400;padding-left:.9rem}
.number{text-align:right;white-space:nowrap}
thead .number{white-space:normal}
td.wide,th.wide{min-width:15rem;font-weight:400}
.short{white-space:nowrap}
td.figure{vertical-align:middle}
tr:has(>td.figure)>*{vertical-align:middle}
#people tbody th{white-space:nowrap}
#people .fig-strip{width:11.9rem;height:auto}
.limits{display:inline-block;min-width:6.6em;margin-left:.55em;text-align:left;color:var(--muted);font-weight:400}
.counts{color:var(--ink);margin-right:.9em}
.map-title{font:600 .84rem/1.4 var(--sans);margin:1rem 0 -.5rem}
.over-strips{display:block;padding-left:12px;font-weight:400}
.absent{color:var(--muted);font-style:italic}
.place{display:block;color:var(--muted);font-weight:400;font-size:.92em}
h4 .place{display:inline;font:.8rem/1 var(--sans)}
.key{display:inline-block;width:.8em;height:.65em;margin:0 .3em 0 .1em}
.key+.key,.key.false{margin-left:.8em}
.key.true{background:var(--deep)}
.key.false{background:var(--ochre)}
.asked{color:var(--amber)}
.beside{display:flex;flex-wrap:wrap;gap:.2rem 1.5rem;align-items:flex-start;margin:.6rem 0}
.beside>*{min-width:0;max-width:100%;margin:0}
.beside .table-block+.table-block{margin-top:.6rem}
.beside .table-block{margin:0}
.beside .fig-fourfold th,.beside .fig-fourfold td{padding:.3rem .5rem}
.beside .fig-fourfold tr>:first-child{padding-left:0;max-width:6rem;white-space:normal}
.beside .fig-fourfold .fig-one-of-four{min-width:5rem;padding:.4rem .6rem}
.beside .fig-one-of-four b{font-size:1.3rem}
.beside .fig-one-of-four span{max-width:6rem;margin-left:auto}
.beside .table-block tbody th{max-width:9.6rem}
.aside{color:var(--muted);font-weight:400}
.answered.here{font-weight:600}
.answered.authors{font-style:italic}
`;

/** The answer: one line of evidence, then its plain sentences. */
const ANSWERS = `
.answers{width:100%}
.answers .measured>.measure{padding-left:.6rem}
.answers .measured>*{padding-top:.45rem;padding-bottom:0;vertical-align:middle}
.answers .measured>.analyte{vertical-align:top;padding-top:.62rem;border-bottom:1px solid var(--rule);font-size:.95rem}
.answers .measure{font-weight:400;min-width:8.6rem}
.answers .analyte{min-width:5rem}
.answers .fig-strip{width:13.375rem;height:auto}
.answers .said>td{padding:.1rem 0 .5rem .6rem;font:.92rem/1.4 var(--serif);max-width:none;border-bottom:1px solid var(--rule);text-wrap:pretty}
.answers tbody:last-of-type>tr>.analyte,.answers tbody:last-of-type>tr:last-child>*{border-bottom:1px solid var(--ink)}
.answers tbody+tbody>tr:first-child>*{border-top:0}
.answers thead .figure{padding-bottom:0}
.answers .figure{padding:.3rem .2rem 0}
.answers .criterion{color:var(--amber)}
.answers .narrow{min-width:5.2rem;max-width:6rem}
.answers .judgement .place{font-size:.8em}
@media screen and (min-width:64.1rem){.answers.compared .measure{min-width:16.6rem}}
.verdict{font-weight:700;white-space:nowrap}
.verdict.undecided,.verdict.not-estimable{font-weight:400;font-style:italic}
.verdict.not-met{text-decoration:underline;text-decoration-thickness:1.5px;text-underline-offset:3px}
`;

/** On a narrow screen each criterion is a card: name and verdict, strip with its scale, figures, sentences. */
const NARROW = `
.card-scale{display:none}
@media screen and (max-width:64rem){.answers .fig-strip{width:10rem}th,td{padding-left:.45rem;padding-right:.45rem}}
@media screen and (max-width:56rem){.answers{font-size:.79rem}.answers .fig-strip{width:8.9rem}.answers th,.answers td,.answers .measured>.measure,.answers .said>td{padding-left:.3rem;padding-right:.3rem}.answers thead th:first-child,.answers .measured>.analyte{padding-left:0}.answers .analyte{min-width:4.5rem}.answers .measure{min-width:7.6rem}.answers .limits{margin-left:.3em}}
@media screen and (max-width:48rem){
.answers thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.answers,.answers tbody,.answers td,.answers th,.answers .said{display:block}
.answers .measured{--line:1;display:grid;grid-template-columns:1fr auto;gap:.1rem 1rem;align-items:baseline;padding-top:.5rem}
.answers .first{--line:2}
.answers tbody tr>td,.answers tbody tr>th,.answers tbody .measured>.measure{padding:0;border:0;min-width:0;max-width:none;text-align:left}
.answers tbody+tbody{border-top:1px solid var(--ink);margin-top:.5rem}
.answers tbody tr.said>td{padding:.2rem 0 .6rem}
.answers tbody tr.said:not(:last-child)>td{border-bottom:1px solid var(--rule)}
.answers tbody:last-of-type>tr>.analyte{border:0}
.answers tbody .measured>.analyte{grid-column:1/-1;font-size:1rem;padding-bottom:.2rem}
.answers .measure{grid-area:var(--line)/1}
.answers tbody .measured>.judgement{grid-area:var(--line)/2;text-align:right}
.answers .measured>.estimate{grid-area:calc(var(--line) + 1)/1}
.answers tbody .measured>.criterion{grid-area:calc(var(--line) + 1)/2;text-align:right}
.answers .measured>.counts{grid-area:calc(var(--line) + 2)/1}
.answers tbody .measured>.probability{grid-area:calc(var(--line) + 2)/2;text-align:right}
.answers .measured>.figure{grid-area:calc(var(--line) + 3)/1/auto/-1}
.answers{font-size:.86rem}
.answers .fig-strip{width:15rem}
.answers .card-scale{display:block}
.answers td[data-label]::before{content:attr(data-label) " ";color:var(--muted);font-weight:400}
}
@media screen and (max-width:40rem){#people .figure{display:none}}
`;

export const TABLE_STYLES = [TABLES, ANSWERS, NARROW].map((part) => part.trim()).join("\n");
