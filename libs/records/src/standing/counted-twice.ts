import { grouped, inOrder } from '@bakehouse/kernel';
import type { Need, Row, State } from '../base/state.js';
import { loadsNeeds, namedLoads } from '../control/loads-of.js';

type Batch = Row<'batch'>;

/** Batches that hold more than there was to count them out of: some of the same pieces were counted twice, or an amount is wrong. */
export interface SamePieces {
  /** In order of time. Where there is one alone, it was too many pieces and not the same ones. */
  readonly batches: readonly Batch[];
  /** So many pieces there were. */
  readonly of: number;
  /** Made up into the run, or baked in the loads that the batches name. */
  readonly from: 'run' | 'loads';
}

/** What has to be looked for before `samePieces` can be asked of a run. */
export const samePiecesNeeds = (run: string): Need[] => [
  { in: 'run', id: run },
  { in: 'batch', by: 'run', value: run },
  ...loadsNeeds({ run }),
];

/**
 * The batches of a run that share pieces, by the records as they stand and in whichever order they came: together they hold more than the run, or those that
 * name certain loads hold more than these did, with one or two batches saying which loads those are.
 */
export function samePieces(state: State, run: string): SamePieces[] {
  const batches = inOrder(state.find('batch', 'run', run));
  const divided = state.get('run', run)?.pieces;
  if (divided !== undefined && counted(batches) > divided) return [{ batches, of: divided, from: 'run' }];
  const held = grouped(state.find('loadLine', 'run', run), (line) => line.load);
  const named = batches.flatMap((batch) => {
    const loads = namedLoads(state, batch);
    return loads === null ? [] : [{ batch, loads }];
  });
  const unions = named.flatMap((a) => named.map((b) => new Set([...a.loads, ...b.loads])));
  return [...unions]
    .sort((a, b) => a.size - b.size)
    .flatMap((union): SamePieces[] => {
      const within = named.filter(({ loads }) => loads.every((l) => union.has(l))).map(({ batch }) => batch);
      const of = [...union].flatMap((l) => held.get(l) ?? []).reduce((sum, line) => sum + line.pieces, 0);
      return within.length > 1 && counted(within) > of ? [{ batches: within, of, from: 'loads' }] : [];
    });
}

const counted = (batches: readonly Batch[]): number => batches.reduce((sum, b) => sum + b.pieces + b.rejects, 0);

/** The batches that one shares pieces with, itself among them; null where it shares none. Needs `samePiecesNeeds` of its run. */
export const sharesPieces = (state: State, batch: Batch): SamePieces | null =>
  samePieces(state, batch.run).find(({ batches }) => batches.length > 1 && batches.some((b) => b.id === batch.id)) ?? null;

/** Which codes share pieces, in a few words, without names: it is kept in what is signed. */
export const samePiecesText = ({ batches, of, from }: SamePieces): string =>
  `${batches.map((b) => `${b.pieces + b.rejects} as ${b.code}`).join(' and ')}, of ${of} ${from === 'run' ? 'that were divided' : 'in the oven'}`;

/** What has to be looked for before `hadCodeBefore` can be asked. */
export const codeNeeds = ({ code }: Pick<Batch, 'code'>): Need[] => [{ in: 'batch', by: 'code', value: code }];

/** The first batch of the same product, site and bake day that has the code of this one: two tablets without a network propose the same. Null for the first itself. */
export function hadCodeBefore(state: State, batch: Batch): Batch | null {
  const same = state
    .find('batch', 'code', batch.code)
    .filter((b) => b.site === batch.site && b.product === batch.product && b.bakedOn === batch.bakedOn);
  const [first] = inOrder(same);
  return first && first.id !== batch.id ? first : null;
}
