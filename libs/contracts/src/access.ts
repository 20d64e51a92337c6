import { permission } from '@bakehouse/kernel';
import * as z from 'zod';

const pin = z
  .string()
  .regex(/^\d{4,8}$/, 'four to eight digits')
  .meta({ format: 'password' });
const strength = z.enum(['tapped', 'pin']).meta({ description: 'a tapped name may record and view; with a PIN, all that the roles allow' });
const person = z.object({ id: z.uuid(), name: z.string().nullable() });

const claim = {
  person: z.uuid().toLowerCase().optional(),
  name: z.string().trim().min(1).max(120).optional().meta({ description: 'in place of `person`, where the names are not shown' }),
  pin,
  organisation: z
    .uuid()
    .toLowerCase()
    .optional()
    .meta({ description: 'needed only where several businesses use the service and the device is not enrolled' }),
};
const oneOfTwo = ({ person: id, name }: { readonly person?: string | undefined; readonly name?: string | undefined }): boolean =>
  (id === undefined) !== (name === undefined);
const whichOne = { path: ['person'], message: 'either `person` or `name`' };

export const newSignOn = z.strictObject(claim).refine(oneOfTwo, whichOne).meta({ id: 'NewSignOn' });

export const newOwnPin = z
  .strictObject({ ...claim, newPin: pin.meta({ description: 'the PIN that you want from now on' }) })
  .refine(oneOfTwo, whichOne)
  .meta({ id: 'NewOwnPin' });

export const newTap = z.strictObject({ person: z.uuid().toLowerCase() }).meta({ id: 'NewTap' });

export const signedOn = z
  .object({
    token: z.string().meta({ description: 'for `Authorization: Bearer`; browsers have it as a cookie' }),
    session: z.uuid(),
    person,
    strength,
    expiresAt: z.iso.datetime(),
  })
  .meta({ id: 'SignedOn' });
export type SignedOn = z.infer<typeof signedOn>;

export const peopleToSignOn = z
  .object({
    organisation: z.object({ id: z.uuid(), name: z.string() }),
    device: z.object({ id: z.uuid(), name: z.string(), site: z.uuid() }).nullable(),
    allShown: z.boolean().default(true).meta({
      description: 'whether these are all names; elsewhere than on a tablet of the house only those whose PIN was right there before',
    }),
    people: z.array(person.extend({ tap: z.boolean().meta({ description: 'whether a tap is enough on this device; otherwise the PIN' }) })),
  })
  .meta({ id: 'PeopleToSignOn' });
export type PeopleToSignOn = z.infer<typeof peopleToSignOn>;

export const me = z
  .object({
    organisation: z.object({ id: z.uuid(), name: z.string() }),
    person,
    strength,
    session: z.uuid(),
    device: z.uuid().nullable(),
    expiresAt: z.iso.datetime(),
    permissions: z.array(permission).meta({ description: 'including permissions of the organisation' }),
    withPin: z.array(permission).meta({ description: 'the same with their PIN, where only a name was tapped' }),
    sites: z.array(
      z.object({
        ...{ id: z.uuid(), name: z.string(), zone: z.string(), dayStarts: z.string() },
        permissions: z.array(permission),
        withPin: z.array(permission),
      }),
    ),
    inspections: z.array(
      z.object({ sites: z.array(z.uuid()), from: z.iso.date(), until: z.iso.date().nullable(), expires: z.iso.datetime() }),
    ),
  })
  .meta({ id: 'Me' });
export type Me = z.infer<typeof me>;

export const newSignature = z
  .strictObject({
    pin,
    entry: z.unknown().meta({ description: 'the entry to sign, exactly as it will be sent; its `send` may differ' }),
  })
  .meta({ id: 'NewSignature' });
export const signature = z
  .object({
    signature: z.string().meta({ description: 'goes into `send.signature` of that entry, once' }),
    meaning: z.string(),
    expiresAt: z.iso.datetime(),
  })
  .meta({ id: 'Signature' });
export type IssuedSignature = z.infer<typeof signature>;

const currentPin = pin.optional().meta({ description: 'the PIN that you have now: it is asked for each time, however you signed on' });
export const newPin = z.strictObject({ pin, currentPin }).meta({ id: 'NewPin' });

export const sessionsEnd = z.strictObject({ currentPin }).meta({ id: 'SessionsEnd' });
export const openSessions = z
  .array(
    z.object({
      id: z.uuid(),
      device: z.object({ id: z.uuid(), name: z.string() }).nullable().meta({ description: 'the tablet; null anywhere else' }),
      strength,
      since: z.iso.datetime(),
      lastSeen: z.iso.datetime().meta({ description: 'to the minute' }),
      expiresAt: z.iso.datetime(),
      current: z.boolean().meta({ description: 'whether it is the one that asks' }),
    }),
  )
  .meta({ id: 'OpenSessions' });
export type OpenSessions = z.infer<typeof openSessions>;

export const newEnrolmentCode = z.strictObject({ site: z.uuid().toLowerCase(), currentPin }).meta({ id: 'NewEnrolmentCode' });
export const deviceRevocation = z.strictObject({ currentPin }).meta({ id: 'DeviceRevocation' });
export const enrolmentCode = z
  .object({
    code: z.string().meta({ description: 'to enter on the tablet' }),
    codeWithOrganisation: z
      .string()
      .meta({ description: 'the same with the organisation in front: for a QR code, or where several businesses use the service' }),
    expiresAt: z.iso.datetime(),
  })
  .meta({ id: 'EnrolmentCode' });
export type EnrolmentCode = z.infer<typeof enrolmentCode>;

export const newDevice = z
  .strictObject({ code: z.string().trim().min(4).max(80), name: z.string().trim().min(1).max(60) })
  .meta({ id: 'NewDevice' });
const device = z.object({ id: z.uuid(), name: z.string(), site: z.uuid() });
export const enrolledDevice = z
  .object({
    device,
    token: z.string().meta({ description: 'for the header `X-Device-Token`; browsers have it as a cookie' }),
  })
  .meta({ id: 'EnrolledDevice' });
export type EnrolledDevice = z.infer<typeof enrolledDevice>;

export const deviceList = z
  .array(
    device.extend({
      enrolledAt: z.iso.datetime(),
      enrolledBy: z.uuid(),
      revokedAt: z.iso.datetime().nullable(),
    }),
  )
  .meta({ id: 'DeviceList' });
export type DeviceList = z.infer<typeof deviceList>;
