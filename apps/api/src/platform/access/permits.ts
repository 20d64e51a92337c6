import type { Permission } from '@bakehouse/kernel';
import { applyDecorators } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import { ApiExtension, ApiSecurity } from '@nestjs/swagger';

/** Who may call a route: anybody, everybody who is signed on, or the holders of one of these permissions at the route's `:site` (or in the organisation). */
export type Access =
  { readonly to: 'anybody' } | { readonly to: 'signed-on' } | { readonly to: 'permitted'; readonly any: readonly Permission[] };

/** What an inspector sees by a route, as it is noted. */
export interface Viewing {
  readonly what: string;
  readonly exported: boolean;
}

export const DeclaredAccess = Reflector.createDecorator<Access>();
export const DeclaredViewing = Reflector.createDecorator<Viewing>();

/** The same in the API's description. */
const described = (sentence: string): MethodDecorator[] => [ApiExtension('x-who-may', sentence)];
/** Made for each route: one decorator on two routes adds to both. */
const signedOnBy = (): MethodDecorator[] => [ApiSecurity('session'), ApiSecurity('session-cookie')];

/** Opens a route to the holders of one of these permissions. A route with `:site` in its address checks them at that site. */
export const Permits = (first: Permission, ...others: Permission[]): MethodDecorator =>
  applyDecorators(
    DeclaredAccess({ to: 'permitted', any: [first, ...others] }),
    ...described(`For people who hold ${[first, ...others].join(' or ')}; where the address names a site, at that site.`),
    ...signedOnBy(),
  );

/** Opens a route to everybody who is signed on; the route itself requires more with `session.require`. */
export const SignedOn = (): MethodDecorator =>
  applyDecorators(
    DeclaredAccess({ to: 'signed-on' }),
    ...described('For everybody who is signed on; some of what it does asks for more.'),
    ...signedOnBy(),
  );

/** Opens a route to anybody, signed on or not. */
export const Public = (): MethodDecorator =>
  applyDecorators(DeclaredAccess({ to: 'anybody' }), ...described('For anybody, signed on or not.'));

/** Names what a route shows, so that an inspector's looking is noted. Every route that `inspect` opens carries one. */
export const Viewed = (what: string): MethodDecorator => DeclaredViewing({ what, exported: false });

/** The same for what leaves the house: a paper, a file. */
export const Exported = (what: string): MethodDecorator => DeclaredViewing({ what, exported: true });
