import type { TraceView } from '@bakehouse/contracts';
import { grouped } from '@bakehouse/kernel';
import { phrase, type PhraseKey } from '@bakehouse/records';
import { comesOff, isOnHold } from '@bakehouse/views';
import { whole } from '../../../shared/format';
import { amountText, dayTime } from '../../../shared/trace/words';
import { amountsText, shortNames, sureText, type EndRow } from './end-row';
import type { Weights } from './lots-drawn';

type End = TraceView['ends'][number];
type ToldMark = EndRow['told'];

/** Those that are called, in the order of the calls; then who is reached by a notice alone; then what no customer has, what is here, what is missing. */
export function forwardEnds(trace: TraceView, weights: Weights, zone: string): EndRow[] {
  return [...goneOut(trace, weights, zone), ...inTheHouse(trace, weights), ...missing(trace, weights), ...hidden(trace)];
}

const byNotice = ['counter', 'stall'];

function goneOut(trace: TraceView, weights: Weights, zone: string): EndRow[] {
  const names = shortNames(trace.lots);
  // Nobody has to be told of a lot that was never recalled.
  const recalled = trace.cases.some((c) => !c.practice);
  const contacts = new Map(trace.contacts.map((c) => [c.party, c]));
  const order = (e: End): number =>
    contacts.get(e.customer ?? '')?.order ?? 1_000_000 + (byNotice.includes(e.channel) ? 0 : e.customer === null ? 2 : 1);
  // What only went to a shop of the house is in the house, and drawn there, or left from there.
  const gone = trace.ends.filter((e) => !e.stays);
  const groups = grouped(gone, (e) => `${e.channel} ${e.customer ?? ''} ${sureText(e.certain)}`);
  const rows = [...groups].flatMap(([key, ends]) => {
    const [first] = ends;
    return first === undefined ? [] : [{ key, ends, first }];
  });
  rows.sort((a, b) => Number(b.first.certain) - Number(a.first.certain) || order(a.first) - order(b.first) || (a.key < b.key ? -1 : 1));
  return rows.map(({ key, ends, first }): EndRow => {
    const lots = [...new Set(ends.flatMap((e) => e.lots))];
    const way = phrase(`channel.${first.channel}` as PhraseKey); // every way out has words
    return {
      id: `end ${key}`,
      what: first.customerName ?? (first.customer === null ? way : 'name not known'),
      detail:
        [...(first.customer === null ? [] : [way]), ...(ends.some((e) => e.unattended) ? ['left with nobody there'] : [])].join(', ') ||
        null,
      amount: amountsText(ends),
      lots: lots.map((id) => ({ id, text: names(id) })),
      look: sureText(first.certain),
      sure: sureText(first.certain),
      told: recalled ? toldOf(first, contacts.get(first.customer ?? ''), zone) : null,
      from: ends.flatMap((e) =>
        e.lots.map((lot) => ({
          lot,
          weight: e.lots.length === 1 ? weights.part(lot, e) : 0,
          look: e.lots.length === 1 ? sureText(e.certain) : ('possible' as const),
        })),
      ),
    };
  });
}

function toldOf(end: End, contact: TraceView['contacts'][number] | undefined, zone: string): ToldMark {
  if (byNotice.includes(end.channel)) return { shape: 'ring', tone: 'calm', text: 'by public notice' };
  if (contact === undefined) return null;
  const last = contact.calls.reduce<(typeof contact.calls)[number] | undefined>(
    (a, c) => (a === undefined || c.at > a.at ? c : a),
    undefined,
  );
  if (contact.reached) return { shape: 'disc', tone: 'good', text: last ? `told ${dayTime(last.at, zone)}` : 'told' };
  if (last === undefined) return { shape: 'handset', tone: 'calm', text: 'not told' };
  return { shape: 'handset', tone: 'ask', text: `${phrase(`contactAnswer.${last.answer}` as PhraseKey)}, ${dayTime(last.at, zone)}` };
}

function inTheHouse(trace: TraceView, weights: Weights): EndRow[] {
  const { onHand, lots } = trace;
  const off = comesOff(trace);
  const names = shortNames(lots);
  return onHand.flatMap((o) =>
    placesOf(o, off(o.lot) === true).map((p): EndRow => {
      const held = isOnHold(o);
      const certain = lots.find((l) => l.id === o.lot)?.certain ?? false;
      const known = p.amount !== null && p.amount >= 0;
      const amount = p.amount === null || o.measure === 'mg' ? { pieces: null, mg: p.amount } : { pieces: p.amount, mg: null };
      const look = held ? 'gate' : known ? sureText(certain) : 'unknown';
      return {
        id: `here ${o.lot} ${p.id}`,
        what: `${p.what}: ${o.name}`,
        detail: `${o.by === 'count' ? 'counted' : o.by === 'records' ? 'by the records, not counted' : 'nobody knows how much'}, ${p.where}`,
        amount:
          p.amount !== null && p.amount < 0
            ? `more gone than there was, by ${amountText(-p.amount, o.measure)}`
            : amountText(p.amount, o.measure),
        lots: [{ id: o.lot, text: names(o.lot) }],
        look,
        sure: known ? sureText(certain) : 'not known',
        told: held ? { shape: 'gate', tone: 'bad', text: 'on hold' } : { shape: 'ring', tone: 'calm', text: 'not on hold' },
        from: [{ lot: o.lot, weight: weights.part(o.lot, amount), look }],
      };
    }),
  );
}

interface Place {
  readonly id: string;
  readonly what: string;
  readonly where: string;
  readonly amount: number | null;
}

/** Each place of the house where some of it is, with its part of what is there. */
function placesOf({ inStore, shelves: { inShop, onCounter } }: TraceView['onHand'][number], off: boolean): Place[] {
  return [
    ...(inStore === null ? [] : [{ id: 'store', what: 'Still in the house', where: inStore.site, amount: inStore.amount }]),
    ...(inShop === null
      ? []
      : [
          {
            id: 'shop',
            what: `In our own shop${off ? ', take it off the counter' : ''}`,
            where: inShop.shop ?? 'the shop',
            amount: inShop.amount,
          },
        ]),
    ...onCounter.map((c) => ({ id: c.site, what: `On our counter${off ? ', take it off' : ''}`, where: c.siteName, amount: c.pieces })),
  ];
}

/** What does not add up, by the balances that the trace gives. */
function missing({ suspectBalances, doesNotAddUp, lots }: TraceView, weights: Weights): EndRow[] {
  const names = shortNames(lots);
  const seen = new Set(doesNotAddUp.map((d) => d.lots.join()));
  const all = [...doesNotAddUp, ...suspectBalances.filter((s) => !seen.has(s.lots.join()))];
  const known = new Set(lots.map((l) => l.id));
  return all.flatMap(({ lots: of, name, code, balance: b }): EndRow[] => {
    const here = of.filter((lot) => known.has(lot));
    const row = (what: string, amount: number, detail: string | null): EndRow => ({
      id: `${what} ${of.join()}`,
      what,
      detail: [`${name}${code === null ? '' : ` ${code}`}`, ...(detail === null ? [] : [detail])].join(', '),
      amount: amountText(amount, b.measure),
      lots: here.map((id) => ({ id, text: names(id) })),
      look: 'unknown',
      sure: 'not known',
      told: null,
      from: here.map((lot) => {
        const part = b.measure === 'mg' ? { pieces: null, mg: amount } : { pieces: amount, mg: null };
        return { lot, weight: here.length === 1 ? weights.part(lot, part) : 0, look: 'unknown' as const };
      }),
    });
    return [
      ...(b.lost > 0 ? [row('Lost in making it', b.lost, null)] : []),
      ...(b.unaccounted !== null && b.unaccounted > 0
        ? [row('Unaccounted', b.unaccounted, b.withoutAmount > 0 ? 'at most: some entries have no amount' : null)]
        : []),
    ];
  });
}

function hidden({ hidden: of, suspects }: TraceView): EndRow[] {
  return of.map((h) => ({
    id: `hidden ${h.site}`,
    what: `${whole(h.lots)} more ${h.lots === 1 ? 'lot' : 'lots'} at ${h.site}`,
    detail: 'that you may not look at',
    amount: 'not shown',
    lots: [],
    look: 'unknown',
    sure: 'not known',
    told: null,
    from: suspects.map((lot) => ({ lot, weight: 0, look: 'unknown' as const })),
  }));
}
