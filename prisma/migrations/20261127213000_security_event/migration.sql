-- What happened at the service's door: who signed on or failed to, what was changed about PINs and tablets, what was refused, what left the house.
CREATE TABLE "security_event" (
    "organisation" UUID NOT NULL,
    "id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "what" TEXT NOT NULL,
    "person" UUID,
    "about" UUID,
    "device" UUID,
    "address" TEXT,
    "detail" TEXT,
    CONSTRAINT "security_event_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "security_event_organisation_what_at_idx" ON "security_event"("organisation", "what", "at");
ALTER TABLE "security_event" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "security_event_fence" ON "security_event" USING (organisation = current_organisation()) WITH CHECK (organisation = current_organisation());
GRANT SELECT, INSERT, DELETE ON "security_event" TO bakehouse_service;
CREATE TRIGGER security_event_unchanged BEFORE UPDATE ON "security_event" FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER security_event_kept BEFORE DELETE ON "security_event" FOR EACH ROW WHEN (OLD."at" > now() - interval '30 days') EXECUTE FUNCTION refuse_change();
