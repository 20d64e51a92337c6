-- From which device a set-aside entry came, so that one device does not fill the disk in a day with what is refused.
ALTER TABLE "set_aside" ADD COLUMN "device" UUID;
CREATE INDEX "set_aside_organisation_received_at_idx" ON "set_aside"("organisation", "received_at");
