import { Module } from '@nestjs/common';
import { DevicesController } from './devices.controller.js';
import { MeController } from './me.controller.js';
import { OpenSessionsController } from './open-sessions.controller.js';
import { OrganisationChoice } from './organisation-choice.js';
import { PeopleListController } from './people-list.controller.js';
import { PinChanges } from './pin-change.service.js';
import { PinsController } from './pins.controller.js';
import { SignaturesController } from './signatures.controller.js';
import { SignaturesService } from './signatures.service.js';
import { SecurityLogController } from './security-log.controller.js';
import { SignOnController } from './sign-on.controller.js';
import { SignOnService } from './sign-on.service.js';

/** Signing on and off, PINs, signatures and devices. Who people are and what they may do is in the ledger. */
@Module({
  controllers: [
    SecurityLogController,
    SignOnController,
    MeController,
    SignaturesController,
    PinsController,
    DevicesController,
    PeopleListController,
    OpenSessionsController,
  ],
  providers: [OrganisationChoice, PinChanges, SignOnService, SignaturesService],
  exports: [OrganisationChoice],
})
export class PeopleModule {}
