import { AmountPad, type AmountTyped } from './amount-pad';

/** How much a decision takes out of the house. It is booked out with the decision, and a second record of it would take it off twice. */
export function HowMuchGoes({ amount }: { readonly amount: AmountTyped }) {
  return (
    <>
      <AmountPad label="How much of it? Leave it empty for all of it" amount={amount} />
      <p className="hint">It leaves the house with this decision. Do not record it under Send out as well.</p>
    </>
  );
}
