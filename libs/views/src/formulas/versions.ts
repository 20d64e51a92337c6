import type { FormulaView } from '@bakehouse/contracts';
import type { Row } from '@bakehouse/records';

/** Who signed an approved version, and the note that was written with it. */
export type Approval = Pick<FormulaView['versions'][number], 'signed' | 'note'>;
export type FormulaVersion = Row<'formulaVersion'> & Approval;
/** The newest version of a formula, with the instant since when it is retired, if it is. */
export type NewestVersion = FormulaVersion & { readonly retired: string | null };
