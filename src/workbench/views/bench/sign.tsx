/** The house's sign: a fourfold table, one of its cells found. */
export function Sign() {
  return (
    <svg class="sign" viewBox="0 0 22 22" width="22" height="22" aria-hidden="true">
      <path class="sign-lines" d="M11 1v20M1 11h20" />
      <rect class="sign-cell" x="2.5" y="2.5" width="6" height="6" />
      <circle class="sign-dot" cx="16.5" cy="16.5" r="2.2" />
    </svg>
  );
}
