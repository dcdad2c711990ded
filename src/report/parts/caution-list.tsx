/** What a page is not: a lead, and the cautions in their order. */
export function CautionList({ lead, items }: { lead: string; items: readonly string[] }) {
  return (
    <>
      <p>{lead}</p>
      <ol class="cautions">
        {items.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ol>
    </>
  );
}
