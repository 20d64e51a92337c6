/** The house's bread stamp: a ring that three cuts of unequal length break open, and the house's initials. Bread stamps once said who baked it. */
export function Stamp({ name }: { readonly name: string }) {
  return (
    <svg className="stamp" viewBox="0 0 96 96" aria-hidden="true" focusable="false">
      <path d="M83.8 37A37.5 37.5 0 1 1 58.5 12" fill="none" stroke="currentColor" strokeWidth="6" />
      <path
        d="M56 20.5q8.6-3 13.4-11.4Q60.7 12 56 20.500zM61.5 30q15.3-5.6 26-19Q72.5 16 61.5 30zM75 35.500q9-2.3 14.8-9.900Q80.7 27.5 75 35.500z"
        fill="currentColor"
      />
      <text x="46" y="63" textAnchor="middle" fontFamily="var(--head)" fontWeight="750" fontSize="34" fill="currentColor">
        {initials(name)}
      </text>
    </svg>
  );
}

/** The first letters of the first two words that begin with one. */
function initials(name: string): string {
  const words = name.match(/\p{L}[\p{L}’'-]*/gu) ?? [];
  return words
    .filter((word) => word.toLowerCase() !== 'the')
    .slice(0, 2)
    .map((word) => [...word][0]?.toUpperCase() ?? '')
    .join('');
}
