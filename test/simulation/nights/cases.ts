import type { Fact } from './drawn.js';
import { NightStock } from './stock.js';

/** Recall cases: opened on a lot, taken further, and lots decided on in them. */
export abstract class NightCases extends NightStock {
  private readonly cases: string[] = [];

  protected recall(): void {
    const draw = this.random();
    if (this.cases.length === 0 || draw < 0.2) return this.openCase();
    if (draw < 0.45) return this.extend();
    return this.decide();
  }

  /** On one lot or two; a practice holds nothing. What came of them is found by following. */
  private openCase(): void {
    const suspect = this.some(this.lots);
    const scope = suspect.map((lot) => ({ lot, certain: true, minPpt: null, maxPpt: null, begins: true }));
    const practice = this.random() < 0.15;
    const said = { suspect, hazard: 'physical' as const, hazardName: 'glass', practice };
    const payload = { ...said, frozenAt: [], scopeHash: '0'.repeat(64), scope };
    const { id } = this.add({ kind: 'recall-opened', payload }, suspect);
    this.made.set(id, id);
    if (!practice) this.cases.push(id);
  }

  private extend(): void {
    const recall = this.pick(this.cases);
    if (recall === undefined) return;
    const lots = this.some(this.lots).map((lot) => ({ lot, certain: this.random() < 0.5 }));
    this.add({ kind: 'recall-scope-extended', payload: { recall, lots } }, [recall, ...lots.map(({ lot }) => lot)]);
  }

  private decide(): void {
    const [recall, lot] = [this.pick(this.cases), this.pick(this.lots)];
    if (recall === undefined || lot === undefined) return;
    const freed = this.random() < 0.75;
    const covers = freed && this.random() < 0.5 ? ('what-came-of-it' as const) : ('this-alone' as const);
    const payload = { recall, lot, decision: freed ? ('freed' as const) : ('destroyed' as const), covers, quantity: null };
    this.add({ kind: 'recall-disposition-decided', payload, words: { why: 'sieved' } }, [recall, lot]);
  }

  private some(lots: readonly string[]): string[] {
    const picked = [this.pick(lots), this.random() < 0.3 ? this.pick(lots) : undefined];
    return [...new Set(picked.flatMap((l) => l ?? []))];
  }
}

/** What belongs in the organisation's book. */
export const inACase = ({ entry }: Fact): boolean => entry.kind.startsWith('recall-');
