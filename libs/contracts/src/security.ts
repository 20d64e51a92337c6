import * as z from 'zod';

/** What happens at the service's door and is noted, without PINs and tokens. */
export const securityWhat = z.enum([
  'signed-on',
  'pin-wrong',
  'pin-set',
  'sessions-ended',
  'signature-given',
  'code-made',
  'device-enrolled',
  'device-revoked',
  'refused',
  'exported',
  'history-differs',
]);
export type SecurityWhat = z.infer<typeof securityWhat>;

const named = z.object({ id: z.string(), name: z.string().nullable() }).nullable();

/** The newest first; `next` asks for what came before, null where there is nothing. */
export const securityEvents = z
  .object({
    events: z.array(
      z.object({
        id: z.string(),
        at: z.iso.datetime(),
        what: securityWhat,
        person: named.meta({ description: 'who did it; null for somebody unknown' }),
        about: named.meta({ description: 'whose PIN, or which tablet, it is about' }),
        device: named,
        address: z.string().nullable().meta({ description: 'where it came from, where it came from no enrolled tablet' }),
        detail: z.string().nullable(),
      }),
    ),
    next: z.string().nullable(),
    notices: z.object({
      wrongPins: z.object({ count: z.int(), addresses: z.int(), people: z.int(), since: z.iso.datetime() }).nullable().meta({
        description: 'many wrong PINs in the last day: somebody may be guessing',
      }),
      newDevices: z.int().meta({ description: 'enrolled in the last seven days' }),
      historyDiffers: z.object({ count: z.int(), last: z.iso.datetime() }).nullable().meta({
        description: 'in the last thirty days tablets saw records that do not go on from those that they had seen',
      }),
      pinsSetByOthers: z.int().meta({ description: 'in the last seven days' }),
    }),
  })
  .meta({ id: 'SecurityEvents' });
export type SecurityEvents = z.infer<typeof securityEvents>;

/** What those were shown who may look by an access alone, the newest first; `next` asks for what came before. */
export const viewings = z
  .object({
    viewings: z.array(
      z.object({
        id: z.string(),
        at: z.iso.datetime(),
        person: z.object({ id: z.string(), name: z.string().nullable() }),
        site: named,
        what: z.string(),
        days: z
          .object({ from: z.string(), until: z.string() })
          .nullable()
          .meta({ description: 'the days that were asked for, where some were' }),
        exported: z.boolean().meta({ description: 'whether it was taken away as a file' }),
      }),
    ),
    next: z.string().nullable(),
  })
  .meta({ id: 'Viewings' });
export type Viewings = z.infer<typeof viewings>;
