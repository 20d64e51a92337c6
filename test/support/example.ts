import { expect } from '@jest/globals';

export type Answer = Readonly<Record<string, unknown>>;
/** One request as a stranger writes it from the table of names and fields, and what an outside source says of it. */
export type Example = readonly [name: string, source: string, body: object, answer: Answer];

export const near = (figure: number, digits = 6): unknown => expect.closeTo(figure, digits);
