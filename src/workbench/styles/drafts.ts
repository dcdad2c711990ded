/** Pages made from one file: the file above, folded, and its page below. */
export const DRAFT_STYLES = `
.draft-editor,.draft-faults,.draft-earlier{max-width:62.4rem;margin:0 auto;padding:0 1.2rem}
.draft-editor{padding-top:1.4rem}
.draft-editor .file-form{margin-top:0}
.draft-editor .file-form:last-child{border-bottom:1px solid var(--ink)}
.draft-editor .file-form>summary>h2{font-size:1rem}
.draft-faults h2{color:var(--amber);margin-top:1.4rem}
.draft-faults ul{margin:.3rem 0;padding-left:1.1rem;font:.88rem/1.45 var(--sans)}
.draft-earlier{min-height:1.45em;padding-top:.5rem}
.draft-beside{display:grid;gap:.5rem;justify-items:start}
@media screen and (max-width:60rem){.draft-beside{display:flex;flex-wrap:wrap;gap:.3rem 1rem;align-items:center}}
`.trim();
