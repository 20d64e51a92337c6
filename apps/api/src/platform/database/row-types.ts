import type { CollectionName, Row } from '@bakehouse/records';
import type { Prisma } from '../../generated/prisma/client.js';

type Models = Prisma.TypeMap['model'];
type Stored<Model extends keyof Models> = Models[Model]['payload']['scalars'];

/** What a query of ours makes of a value of the generated client's: see types.ts. What a JSON column holds, its schema does not say. */
type ValueRead<T> = [Prisma.JsonValue] extends [T]
  ? unknown
  : T extends Date
    ? string
    : T extends bigint
      ? number
      : T extends Uint8Array
        ? Buffer
        : T extends (infer Item)[]
          ? readonly Item[]
          : T;

/** A generated model as our connections read its columns: instants and days as text, 64-bit integers as numbers, bytes as a Buffer. */
export type AsRead<Model> = { readonly [Field in keyof Model]: ValueRead<Model[Field]> };

/** Where a row of a collection stands, and the entry that wrote it: the columns that all of these tables have beside the record's own. */
type Origin = Pick<AsRead<Stored<'Lot'>>, 'organisation' | 'book' | 'entry' | 'seq'>;

/** The tables that no collection makes, by the names that the generated client has for them. */
type OtherTable = Exclude<Uncapitalize<keyof Models & string>, CollectionName>;

/** A whole row of a table as a query reads it: a collection's from the one list of collections, any other from the generated models. */
export type TableRow<Table extends CollectionName | OtherTable> = Table extends CollectionName
  ? Row<Table> & Origin
  : AsRead<Stored<Extract<Capitalize<Table>, keyof Models>>>;

/** What a LEFT JOIN brings: null where it found nothing. */
export type Maybe<Joined> = { readonly [Field in keyof Joined]: Joined[Field] | null };

/** What a statement works out (a count, EXISTS, coalesce, an aggregate), or reads from a table that is not ours. */
export type Computed<Value> = Value;

/** A column of which more is known than its type: the words that a text is one of, or what a JSON column holds. */
export type Holds<Column, Value extends Column> = Value;

type Snake<Name extends string> = Name extends `${infer First}${infer Rest}`
  ? `${First extends Lowercase<First> ? First : `_${Lowercase<First>}`}${Snake<Rest>}`
  : Name;

/** The same row by the names that its columns have in SQL: for a statement that gives them no others. */
export type Columns<R> = { readonly [Field in keyof R & string as Snake<Field>]: R[Field] };
