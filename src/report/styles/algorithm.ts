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
`.trim();
