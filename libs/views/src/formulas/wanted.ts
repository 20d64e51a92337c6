import type { FormulaRequest } from '@bakehouse/contracts';
import { convertExact, refuse, type Outcome, type Refused } from '@bakehouse/kernel';
import { scaledTo, scaledToPieces, type FormulaContent, type Scaled } from '@bakehouse/records';

export interface Wanted {
  readonly says: string;
  readonly scaled: Scaled;
}

/**
 * What a formula is to be scaled to, or null where nothing was asked: pieces of its products (with what shall be kept or lost besides), grams,
 * or pounds and ounces, each to whole milligrams. The lines sum to it exactly.
 */
export function wantedOf(content: FormulaContent, request: FormulaRequest): Outcome<Wanted | null> {
  const { pieces, besidesGrams, grams, pounds, ounces } = request;
  const ways = [pieces, grams, pounds ?? ounces].filter((way) => way !== undefined);
  if (ways.length === 0)
    return besidesGrams === undefined
      ? { ok: true, value: null }
      : refuse('unacceptable-value', 'besidesGrams', 'only together with pieces');
  if (ways.length > 1)
    return refuse('unacceptable-value', grams === undefined ? 'pounds' : 'grams', 'one of pieces, grams, or pounds with ounces');
  if (pieces !== undefined) return toPieces(content, pieces, besidesGrams);
  if (besidesGrams !== undefined) return refuse('unacceptable-value', 'besidesGrams', 'only together with pieces');
  if (grams !== undefined) return named(scaledTo(content, whole(convertExact(grams, 'g', 'mg'))), 'grams', `${grams} g`);
  const mg = convertExact(pounds ?? '0', 'lb', 'mg').plus(convertExact(ounces ?? '0', 'oz', 'mg'));
  return named(
    scaledTo(content, whole(mg)),
    pounds === undefined ? 'ounces' : 'pounds',
    [...(pounds === undefined ? [] : [`${pounds} lb`]), ...(ounces === undefined ? [] : [`${ounces} oz`])].join(' '),
  );
}

function toPieces(content: FormulaContent, pieces: readonly string[], besidesGrams = '0'): Outcome<Wanted> {
  const wanted = pieces.map((text) => ({ product: text.slice(0, 36).toLowerCase(), pieces: Number(text.slice(37)) }));
  const besides = whole(convertExact(besidesGrams, 'g', 'mg'));
  const says = wanted
    .map(({ product, pieces }) => `${pieces} × ${content.products.find((p) => p.product === product)?.name ?? product}`)
    .join(', ');
  return named(scaledToPieces(content, wanted, besides), 'pieces', besides === 0 ? says : `${says}, and ${besidesGrams} g besides`);
}

const whole = (mg: { toDecimalPlaces(places: number): { toNumber(): number } }): number => mg.toDecimalPlaces(0).toNumber();

function named(scaled: Outcome<Scaled>, field: string, says: string): Outcome<Wanted> {
  if (scaled.ok) return { ok: true, value: { says, scaled: scaled.value } };
  return { ...scaled, field } satisfies Refused;
}
