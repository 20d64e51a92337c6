import { LinkButton } from '../../ui';
import { paths } from '../../shared/night/paths';
import { useTabletState } from '../../shared/tablet-context';
import { newestOf } from './versions';

/** Where something was recorded, the way to correct it or take it back; nothing where this tablet did not record it. */
export function CorrectIt({ entry }: { readonly entry: string }) {
  const newest = newestOf(useTabletState().recent, entry);
  return newest ? <LinkButton to={paths.correct(newest.id)}>Correct it</LinkButton> : null;
}
