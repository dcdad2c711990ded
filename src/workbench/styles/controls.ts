/** Buttons, fields and links that act: few lines, the house's one blue-green, room for a finger. */
export const CONTROL_STYLES = `
[hidden]{display:none!important}
button,.button{font:.88rem/1.35 var(--sans);color:var(--deep);background:var(--paper);border:1px solid var(--deep);border-radius:2px;padding:.42rem .85rem;cursor:pointer;display:inline-block;min-height:2rem}
button:hover,.button:hover{background:var(--deep);color:var(--paper)}
button:disabled{color:var(--muted);border-color:var(--rule);background:none;cursor:default}
.button:focus-within{outline:2px solid var(--deep);outline-offset:3px}
.buttons{display:flex;flex-wrap:wrap;gap:.6rem}
button.plain{border:0;padding:.1rem .15rem;min-height:1.5rem;background:none;color:var(--deep);text-decoration:underline;text-decoration-thickness:1px;text-underline-offset:.15em;font-size:inherit}
button.plain:hover{color:var(--ink);background:none;text-decoration-thickness:2px}
td button.plain{margin:-.25rem 0}
button.plain:disabled{color:var(--muted);text-decoration:none}
input,select,textarea{font:.92rem/1.4 var(--sans);color:var(--ink);background:var(--paper);border:0;border-bottom:1px solid var(--muted);border-radius:0;padding:.3rem .35rem;min-height:2rem;max-width:100%}
select{padding-left:.1rem}
input:focus-visible,select:focus-visible,textarea:focus-visible{outline-offset:1px}
input::placeholder{color:var(--muted);opacity:1}
input:user-invalid,select:user-invalid{border-bottom:2px solid var(--amber)}
.field{display:block;font:.78rem/1.35 var(--sans);color:var(--muted)}
.field>input,.field>select{display:block;width:100%}
progress{display:block;width:100%;height:.3rem;accent-color:var(--deep)}
.trouble,.earlier{background:var(--wash);margin:0;padding:.7rem 1.2rem;max-width:none;font:.88rem/1.45 var(--sans)}
.trouble{border-bottom:1px solid var(--ink)}
.earlier{color:var(--muted)}
`.trim();
