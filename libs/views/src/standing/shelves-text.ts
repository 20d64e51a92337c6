import type { ShelvesView } from '@bakehouse/contracts';
import { countText } from '@bakehouse/kernel';

/** Whether it has to come off the shelves; in a practice it only would, and nobody is to do it. */
export type ComesOff = boolean | 'practice';

/** Where customers may take it, a sentence each; with what to do where it has to come `off`, as what is on hold or recalled has. */
export function shelvesText({ inShop, onCounter }: ShelvesView, off: ComesOff): string[] {
  const many = (pieces: number | null): string => (pieces === null ? 'number not known' : countText(pieces, 'piece'));
  const first = off === 'practice' ? 'practice: ' : '';
  const order = (text: string): string => (off === 'practice' ? ', would be taken off' : off ? `, ${text}` : '');
  return [
    ...(inShop === null
      ? []
      : [
          `${first}in the shop${inShop.shop === null ? '' : ` ${inShop.shop}`}: ${many(inShop.measure === 'pieces' ? inShop.amount : null)}${order('take them off the counter')}`,
        ]),
    ...onCounter.map(
      (c) => `${first}on the counter${c.siteName === '' ? '' : ` at ${c.siteName}`}: ${many(c.pieces)}${order('take them off')}`,
    ),
  ];
}
