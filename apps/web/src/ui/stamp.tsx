import { initials, stampDrawing } from '@bakehouse/views';

/** The house's bread stamp: a ring that three cuts of unequal length break open, and the house's initials. Bread stamps once said who baked it. */
export function Stamp({ name }: { readonly name: string }) {
  return (
    <svg className="stamp" viewBox="0 0 96 96" aria-hidden="true" focusable="false">
      <path d={stampDrawing.ring} fill="none" stroke="currentColor" strokeWidth="6" />
      <path d={stampDrawing.cuts} fill="currentColor" />
      <text x="46" y="63" textAnchor="middle" fontFamily="var(--head)" fontWeight="750" fontSize="34" fill="currentColor">
        {initials(name)}
      </text>
    </svg>
  );
}
