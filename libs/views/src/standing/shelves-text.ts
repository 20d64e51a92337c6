import type { ShelvesView } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';

/** Where customers may take it, a sentence each; with what to do where it has to come `off`, as what is on hold or recalled has. */
export function shelvesText({ inShop, onCounter }: ShelvesView, off: boolean): string[] {
  const many = (pieces: number | null): string => (pieces === null ? 'number not known' : countText(pieces, 'piece'));
  return [
    ...(inShop === null
      ? []
      : [
          `in the shop${inShop.shop === null ? '' : ` ${inShop.shop}`}: ${many(inShop.measure === 'pieces' ? inShop.amount : null)}${off ? ', take them off the counter' : ''}`,
        ]),
    ...onCounter.map(
      (c) => `on the counter${c.siteName === '' ? '' : ` at ${c.siteName}`}: ${many(c.pieces)}${off ? ', take them off' : ''}`,
    ),
  ];
}
