-- From which device a photo came, so that one device does not fill the disk in a day.
ALTER TABLE "photo" ADD COLUMN "device" UUID;
CREATE INDEX "photo_organisation_at_idx" ON "photo"("organisation", "at");
