import { Link } from 'wouter';
import { office } from './office-paths';

/** Stands where a list is empty: the guide knows what comes next. */
export const SetUpLink = () => <Link href={office.setup}>What to do first stands under Set-up</Link>;
