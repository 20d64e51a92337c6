import type { Trouble } from './trouble-of';
import { Notice } from '../ui';

/** What stood against something, and what to do. Nothing where nothing did. */
export const TroubleNotice = ({ of }: { readonly of: Trouble | undefined }) =>
  of ? (
    <Notice tone="bad" title={of.title}>
      <p>{of.detail}</p>
    </Notice>
  ) : null;
