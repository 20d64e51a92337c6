import { Injectable, RequestMethod, type OnModuleInit } from '@nestjs/common';
import { METHOD_METADATA, PATH_METADATA } from '@nestjs/common/constants.js';
import { DiscoveryService, MetadataScanner, Reflector } from '@nestjs/core';
import { DeclaredAccess, DeclaredViewing } from './permits.js';

/** Counts the routes at the start: one that does not say who may call it keeps the application from starting. */
@Injectable()
export class RouteCensus implements OnModuleInit {
  constructor(
    private readonly discovery: DiscoveryService,
    private readonly scanner: MetadataScanner,
    private readonly reflector: Reflector,
  ) {}

  onModuleInit(): void {
    const faults = this.discovery
      .getControllers()
      .flatMap(({ metatype }) => (metatype ? this.faultsOf(metatype.name, metatype.prototype) : []));
    if (faults.length > 0) throw new Error(`The service does not start: ${faults.join(' ')}`);
  }

  private faultsOf(controller: string, prototype: object): string[] {
    return this.scanner.getAllMethodNames(prototype).flatMap((name) => {
      const handler: unknown = Reflect.get(prototype, name);
      return typeof handler === 'function' && Reflect.hasMetadata(PATH_METADATA, handler)
        ? this.faultsAt(`${controller}.${name}`, handler)
        : [];
    });
  }

  private faultsAt(name: string, handler: Function): string[] {
    const access = this.reflector.get(DeclaredAccess, handler);
    if (!access) return [`The route ${name} does not say who may call it. Put @Permits, @SignedOn or @Public on it.`];
    if (access.to !== 'permitted' || !access.any.includes('inspect')) return [];
    const method: unknown = Reflect.getMetadata(METHOD_METADATA, handler);
    if (method !== RequestMethod.GET) return [`The route ${name} is open to an inspector and is no GET: an inspector only looks.`];
    if (this.reflector.get(DeclaredViewing, handler)) return [];
    return [`The route ${name} is open to an inspector and does not say what it shows. Put @Viewed or @Exported on it.`];
  }
}
