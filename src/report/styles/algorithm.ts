/** What an algorithm's page needs beyond the report's own styles. */
export const ALGORITHM_STYLES = `
.fig-drawn .fig-flow-full{stroke:var(--deep)}
.fig-drawn .fig-flow-hollow{stroke:var(--muted)}
.fig-drawn .fig-flow-inside{stroke:var(--paper)}
.fig-drawn .fig-flow-dashed{stroke-dasharray:4 2.5}
.fig-drawn .fig-unclear{fill:var(--paper);stroke:var(--muted);stroke-width:1.2}
.fig-drawn .fig-unclear-positive{fill:var(--pale);stroke:var(--deep);stroke-width:1.2}
.fig-people .fig-found{stroke-width:4}
.fig-people .fig-rest{stroke-width:1.5}
.fig-people .fig-missed,.fig-people .fig-unclear,.fig-people .fig-unclear-positive{stroke-width:1}
.fig-people .fig-false-alarm{stroke-width:.5}
.fig-people .fig-large.fig-found{stroke-width:6.6}
.fig-people .fig-large.fig-rest{stroke-width:2.4}
.fig-drawn .fig-independent{stroke-width:1.6}
.whole{white-space:nowrap}
.answers.reckoned .analyte{min-width:6.4rem;border-bottom:0}
.answers.reckoned .measured>*{padding-bottom:.3rem}
.answers.reckoned .measure{min-width:10rem}
.answers.reckoned th,.answers.reckoned td{padding-left:.35rem;padding-right:.35rem}
.answers.reckoned tr>:last-child{padding-right:0}
.answers.reckoned thead th:first-child,.answers.reckoned .analyte{padding-left:0}
.answers.reckoned tbody+tbody>tr:first-child>*{border-top:1px solid var(--rule)}
.answers.reckoned .fig-strip{width:11rem}
.answers.reckoned .narrow{min-width:4.4rem;max-width:5.2rem}
@media screen and (max-width:48rem){
.answers.reckoned tbody .measured>td,.answers.reckoned tbody .measured>th{padding:0;border:0}
.answers.reckoned tbody+tbody>tr:first-child>*{border:0}
.answers.reckoned .measured{padding-bottom:.6rem}
.answers.reckoned tbody .measured:not(:last-child){border-bottom:1px solid var(--rule)}
.answers.reckoned .measured>.alone{grid-area:calc(var(--line) + 1)/2;text-align:right}
.answers.reckoned .measured>.net{grid-area:calc(var(--line) + 2)/1}
.answers.reckoned .measured>.second{grid-area:calc(var(--line) + 2)/2;text-align:right}
}
@media print{
.answers.reckoned .measured{break-after:auto}
.answers.reckoned tbody{break-inside:avoid}
.answers.reckoned .measured>*{padding-bottom:.12rem}
#tree .fig-wide{zoom:.78}
.fig-people .fig-rest{print-color-adjust:exact}
}
#kits tr.group~tr th{min-width:5rem}
#uncertainty tr.group~tr th,#costs tr.group~tr th{min-width:9.5rem}
`.trim();
