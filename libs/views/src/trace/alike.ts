import type { TraceView } from '@bakehouse/contracts';
import { isAlike, type Coded } from '@bakehouse/records';

/** A lot that is called as one that was asked about, by what was looked up. */
export interface AlikeRow extends Coded {
  readonly name: string;
  readonly supplierName: string | null;
  readonly at: string;
  readonly book: string;
  /** The lot that it was asked about, and that lot's code. */
  readonly of: string;
  readonly ofCode: string | null;
}

interface AlikeMaterial {
  readonly question: { readonly suspects: readonly string[] };
  readonly alike: readonly AlikeRow[];
  readonly siteName: (book: string) => string;
  readonly mayLook: (book: string) => boolean;
}

/** The lots that may be the same lot of the supplier's as a suspect and are none of the suspects; how many of them the reader may not see. */
export function alikeOf({ question, alike, siteName, mayLook }: AlikeMaterial): Pick<TraceView, 'alike' | 'alikeHidden'> {
  const others = alike.filter(
    (one) => !question.suspects.includes(one.id) && isAlike({ id: one.of, material: one.material, code: one.ofCode }, one),
  );
  const each = [...new Map(others.map((one) => [one.id, one])).values()];
  const seen = each.filter((one) => mayLook(one.book));
  return {
    alike: seen.map(({ id, name, code, supplierName, at, book }) => ({ lot: id, name, code, supplierName, site: siteName(book), at })),
    alikeHidden: each.length - seen.length,
  };
}
