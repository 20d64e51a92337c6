import type { ShelvesView } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';

/** Where customers may take it and what to do, a sentence each: what is on hold or recalled must come off there. */
export function shelvesText({ inShop, onCounter }: ShelvesView): string[] {
  const many = (pieces: number | null): string => (pieces === null ? 'number not known' : countText(pieces, 'piece'));
  return [
    ...(inShop === null
      ? []
      : [
          `in the shop${inShop.shop === null ? '' : ` ${inShop.shop}`}: ${many(inShop.measure === 'pieces' ? inShop.amount : null)}, take them off the counter`,
        ]),
    ...onCounter.map((c) => `on the counter${c.siteName === '' ? '' : ` at ${c.siteName}`}: ${many(c.pieces)}, take them off`),
  ];
}
