import {
  kindsOver,
  type AnyKind as AnyKindOver,
  type Kind as KindOver,
  type KindSpec,
  type ReadEntry as ReadEntryOver,
} from '@bakehouse/kernel';
import type * as z from 'zod';
import type { Collections } from './state.js';

/** A kind over the collections of this product. An interface, so that its name and not its whole content stands in declarations. */
export interface Kind<N extends string, P extends z.ZodType, O extends z.ZodType> extends KindOver<Collections, N, P, O> {
  readonly name: N;
}
export type AnyKind = AnyKindOver<Collections>;
export type ReadEntry = ReadEntryOver<Collections>;

/** Declares a kind over the collections of this product. */
export const defineKind: <const N extends string, P extends z.ZodType, O extends z.ZodType>(
  spec: KindSpec<Collections, N, P, O>,
) => Kind<N, P, O> = kindsOver<Collections>();
