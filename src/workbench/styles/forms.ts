/** Forms made from schemas: fields in columns where there is room, parts under a rule at the left. */
export const FORM_STYLES = `
.form{font:.88rem/1.45 var(--sans)}
.form-fields{display:grid;grid-template-columns:repeat(auto-fill,minmax(min(15rem,100%),1fr));gap:.9rem 1.8rem;align-items:start;margin:.5rem 0}
.form-field{min-width:0}
.form-field>label,.form-new>label{display:block;color:var(--ink)}
.form-optional,.form-gist,.form-name{color:var(--muted);font-weight:400}
.form-optional{font-size:.78rem}
.form-field>input,.form-field>select{display:block;width:100%}
.form-field>input.form-number{max-width:11rem}
.form-fixed{display:block;padding:.3rem 0;color:var(--muted)}
.form p.form-help{margin:.15rem 0 0;max-width:34rem;font-size:.78rem;line-height:1.4;color:var(--muted)}
.form p.form-fault{margin:.15rem 0 0;max-width:34rem}
.form-fault{color:var(--amber);font-weight:600}
.form [aria-invalid=true]{border-bottom:2px solid var(--amber)}
.form-part{border:0;border-left:1px solid var(--rule);margin:1.1rem 0 .6rem;padding:0 0 0 1rem;min-width:0}
.form-part>legend{padding:0;font-weight:600;margin-left:-1rem;padding-left:1rem}
.form-acts{display:flex;gap:.9rem;margin:.3rem 0 0}
.form-row{display:flex;flex-wrap:wrap;gap:.3rem 1.1rem;align-items:baseline;margin:.4rem 0}
.form-row>.form-item{display:flex;flex-wrap:wrap;align-items:baseline;gap:.1rem}
.form-row>.form-item>.form-fault{flex-basis:100%}
.form-row .form-number{width:6rem}
.form-row .form-text{width:9rem}
.form-new{display:flex;flex-wrap:wrap;gap:.2rem .7rem;align-items:end;margin:.7rem 0}
.form-new>label{flex-basis:100%;font-size:.78rem;color:var(--muted)}
.form-fold{border-top:1px solid var(--rule)}
.form-fold:last-of-type{border-bottom:1px solid var(--rule)}
.form-fold>summary{padding:.5rem 0;cursor:pointer}
.form-fold-name{font-weight:600;display:inline-block;min-width:9rem}
.form-fold-content{padding:0 0 1.2rem 1rem}
.file-form{margin:1.4rem 0 0;border-top:1px solid var(--ink)}
.file-form>summary{cursor:pointer;padding:.55rem 0}
.file-form>summary>h2{display:inline;margin:0;font-size:1.15rem}
.file-form-open{padding:.2rem 0 1rem}
.file-text{margin-top:1rem}
.file-text>summary{cursor:pointer;font:.88rem/1.45 var(--sans)}
.file-text textarea{display:block;width:100%;border:1px solid var(--rule);font:.8rem/1.5 ui-monospace,monospace;margin-top:.5rem}
@container page (min-width:80rem){.file-form-open:has(.file-text[open]){display:grid;grid-template-columns:minmax(0,1fr) minmax(0,1fr);gap:2.5rem}}
.mend{border-left:3px solid var(--amber);padding:.1rem 0 .1rem 1rem;margin:1rem 0 1.6rem}
.mend h3{margin:.2rem 0;font:600 1rem/1.4 var(--sans)}
.mend-rows td,.mend-rows th{white-space:nowrap}
.mend-rows .mend-here>*{border-top:1px solid var(--ink);border-bottom:1px solid var(--ink)}
.mend-rows input{min-height:1.7rem;padding:.1rem .2rem}
.mend-cell{border-bottom:2px solid var(--amber)!important}
.mend-of{align-self:center}
.chosen{max-width:22rem;margin:.4rem 0}
.mapping-rows .chosen{min-width:9rem;margin:0;font-weight:400;text-transform:none;letter-spacing:0}
.mapping-rows .chosen>span{display:block;color:var(--ink);font-weight:600;white-space:nowrap}
.guess{font-weight:400;font-style:italic;color:var(--amber)}
.mapping-out{color:var(--muted)}
.lacking{border-left:3px solid var(--amber);padding:.1rem 0 .1rem 1rem;margin:1.4rem 0 1rem}
.lacking h3{margin:.2rem 0;font:600 .92rem/1.4 var(--sans)}
.lacking ul{margin:.2rem 0;padding-left:1.1rem;font:.88rem/1.5 var(--sans)}
`.trim();
