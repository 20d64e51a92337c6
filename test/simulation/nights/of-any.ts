import { g } from '../../fixtures/bakehouse.js';
import { Night } from './facts.js';

/** A night in which much is weighed in as one of several lots, often of more than one of them had. */
export class NightOfAny extends Night {
  override next(): void {
    const draw = this.random();
    if (draw < 0.15) return this.weighAny();
    if (draw < 0.2) return this.countOut();
    return super.next();
  }

  private weighAny(): void {
    const make = this.pick(this.makes);
    if (make === undefined) return;
    const from = this.sources(make);
    const [lot, ...orLots] = [...new Set(Array.from({ length: this.whole(2, 3) }, () => this.pick(from)).flatMap((l) => l ?? []))];
    if (lot === undefined) return;
    const quantity = g(String(this.whole(100, 30_000)));
    const line = { material: this.world.flour, lot, orLots, quantity, how: 'weighed' as const, type: 'ingredient' as const };
    this.add({ kind: 'weighed-in', payload: { make, lines: [line] } }, [make, lot, ...orLots]);
  }
}
