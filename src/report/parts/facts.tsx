import type { ComponentChildren } from "preact";

/** Names and what belongs to them. Those without a value are left out. */
export function Facts({ items }: { items: readonly (readonly [string, ComponentChildren])[] }) {
  const known = items.filter(([, value]) => value !== null && value !== undefined && value !== "");
  if (known.length === 0) return null;
  return (
    <dl class="facts">
      {known.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
