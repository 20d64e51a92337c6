import { inBoth, type Touched } from '@bakehouse/records';
import type { ClientBase } from 'pg';
import { forgetClear } from './clear-lots.js';

/** What the entries of a commit spoke about, which is not clear any more. The notes are taken away once for them all, or before anything is followed. */
export class Forgetting {
  private touched: Touched | 'everything' | null = null;

  constructor(
    private readonly client: ClientBase,
    private readonly organisation: string,
  ) {}

  add(touched: Touched | 'everything'): void {
    this.touched = this.touched === null ? touched : inBoth(this.touched, touched);
  }

  /** True where there were notes. Whatever is asked on this connection from now on finds none of them. */
  async now(): Promise<boolean> {
    const { touched } = this;
    this.touched = null;
    if (touched === null || (touched !== 'everything' && touched.about.size + touched.amounts.size === 0)) return false;
    return forgetClear(this.client, this.organisation, touched);
  }
}
