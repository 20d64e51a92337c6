import { describe, expect, it } from '@jest/globals';
import type { AsRead, Columns, Holds, Maybe, TableRow } from './row-types.js';

/** Whether two types are the same, told to the compiler: where they are not, `true` is no value of it and the test does not compile. */
type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
const holds = <T extends true>(...same: readonly T[]): void => expect(same).not.toContain(false);

describe('a row as our connections read it', () => {
  it('has instants as text, 64-bit integers as numbers, bytes as a buffer, and knows nothing of JSON', () => {
    type Model = {
      at: Date;
      until: Date | null;
      seq: bigint;
      size: bigint | null;
      leaf: Uint8Array<ArrayBuffer>;
      names: string[];
      ok: boolean;
    };
    type Read = {
      readonly at: string;
      readonly until: string | null;
      readonly seq: number;
      readonly size: number | null;
      readonly leaf: Buffer;
      readonly names: readonly string[];
      readonly ok: boolean;
    };
    holds<Same<AsRead<Model>, Read>>(true);
    holds<Same<TableRow<'draft'>['content'], unknown>>(true);
  });

  it('comes from the collection where there is one, with its words, and from the generated model where there is none', () => {
    holds<Same<TableRow<'onCounter'>['way'], 'on' | 'off'>>(true);
    holds<Same<TableRow<'onCounter'>['seq'], number>>(true);
    holds<Same<TableRow<'sending'>['receivedAt'], string>>(true);
    holds<Same<TableRow<'book'>['lastAt'], string | null>>(true);
  });

  it('has null for what a LEFT JOIN did not find, and the names of SQL where a statement gives no others', () => {
    holds<Same<Maybe<Pick<TableRow<'batch'>, 'code'>>, { readonly code: string | null }>>(true);
    holds<Same<Columns<Pick<TableRow<'entry'>, 'inputHash' | 'seq'>>, { readonly input_hash: Buffer; readonly seq: number }>>(true);
    holds<Same<Holds<TableRow<'book'>['type'], 'site'>, 'site'>>(true);
  });
});
