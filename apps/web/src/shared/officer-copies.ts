import { inspectionView, type InspectionView } from '@bakehouse/contracts';
import { Kept, openDatabase } from '@bakehouse/offline';

export type Span = 'today' | 'month';
const keyOf = (site: string, span: Span): string => `officer ${site} ${span}`;
const store = async (): Promise<Kept> => new Kept(await openDatabase('bakehouse'));

/** What would be shown to an officer, kept on the device so that it can be shown without a network. */
export async function keepForOfficer(site: string, span: Span, view: InspectionView): Promise<void> {
  await (await store()).put(keyOf(site, span), view).catch(() => undefined); // a full disk loses a copy, nothing else
}

export const keptForOfficer = async (site: string, span: Span): Promise<InspectionView | null> =>
  (await store()).get(keyOf(site, span), inspectionView).catch(() => null);
