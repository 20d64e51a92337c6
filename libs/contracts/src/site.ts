import * as z from 'zod';

const text = z.string().nullable();

/** Where a site is, the number it is registered under and its food-safety authority, as they were written down last; nothing where nobody has. */
export const siteDetails = z
  .object({
    address: text,
    phone: text,
    registration: text.meta({ description: 'the number that the site is registered under as a food business' }),
    authority: z.object({ name: z.string(), phone: text, outOfHours: text }).nullable(),
    since: z.iso.datetime().nullable(),
  })
  .meta({ id: 'SiteDetails' });
export type SiteDetails = z.infer<typeof siteDetails>;

export const detailsOfSite = siteDetails.extend({ site: z.uuid(), siteName: z.string() }).meta({ id: 'DetailsOfSite' });
export type DetailsOfSite = z.infer<typeof detailsOfSite>;
