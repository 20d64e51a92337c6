CREATE TABLE "credential" (
    "organisation" UUID NOT NULL,
    "person" UUID NOT NULL,
    "hash" TEXT NOT NULL,
    "set_at" TIMESTAMPTZ(3) NOT NULL,
    "set_by" UUID NOT NULL,
    CONSTRAINT "credential_pkey" PRIMARY KEY ("organisation", "person")
);

CREATE TABLE "guess_count" (
    "organisation" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "failures" INTEGER NOT NULL,
    "last_at" TIMESTAMPTZ(3) NOT NULL,
    "next_at" TIMESTAMPTZ(3) NOT NULL,
    "good_at" TIMESTAMPTZ(3),
    CONSTRAINT "guess_count_pkey" PRIMARY KEY ("organisation", "key")
);

CREATE TABLE "device" (
    "organisation" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "site" UUID NOT NULL,
    "token_hash" BYTEA NOT NULL,
    "enrolled_at" TIMESTAMPTZ(3) NOT NULL,
    "enrolled_by" UUID NOT NULL,
    "revoked_at" TIMESTAMPTZ(3),
    "revoked_by" UUID,
    CONSTRAINT "device_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE UNIQUE INDEX "device_organisation_token_hash_key" ON "device"("organisation", "token_hash");

CREATE TABLE "enrolment_code" (
    "organisation" UUID NOT NULL,
    "code_hash" BYTEA NOT NULL,
    "site" UUID NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "made_by" UUID NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "used_at" TIMESTAMPTZ(3),
    CONSTRAINT "enrolment_code_pkey" PRIMARY KEY ("organisation", "code_hash")
);

CREATE TABLE "session" (
    "organisation" UUID NOT NULL,
    "id" UUID NOT NULL,
    "token_hash" BYTEA NOT NULL,
    "person" UUID NOT NULL,
    "device" UUID,
    "strength" TEXT NOT NULL,
    "pin_until" TIMESTAMPTZ(3),
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "last_seen_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_why" TEXT,
    CONSTRAINT "session_pkey" PRIMARY KEY ("organisation", "id"),
    CONSTRAINT "session_strength" CHECK ("strength" IN ('tapped', 'pin')),
    CONSTRAINT "session_tapped_on_device" CHECK ("strength" = 'pin' OR "device" IS NOT NULL)
);
CREATE UNIQUE INDEX "session_organisation_token_hash_key" ON "session"("organisation", "token_hash");
CREATE INDEX "session_organisation_person_idx" ON "session"("organisation", "person");
CREATE INDEX "session_organisation_device_idx" ON "session"("organisation", "device");
ALTER TABLE "session" ADD CONSTRAINT "session_organisation_device_fkey" FOREIGN KEY ("organisation", "device") REFERENCES "device"("organisation", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

CREATE TABLE "viewing" (
    "organisation" UUID NOT NULL,
    "id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "person" UUID NOT NULL,
    "session" UUID NOT NULL,
    "site" UUID,
    "what" TEXT NOT NULL,
    "address" TEXT NOT NULL,
    "exported" BOOLEAN NOT NULL,
    CONSTRAINT "viewing_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "viewing_organisation_at_idx" ON "viewing"("organisation", "at");

-- The fence: every table, the organisation of this transaction.
DO $$ DECLARE t text; BEGIN
  FOREACH t IN ARRAY ARRAY['credential', 'guess_count', 'device', 'enrolment_code', 'session', 'viewing'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY %I ON %I USING (organisation = current_organisation()) WITH CHECK (organisation = current_organisation())', t || '_fence', t);
    EXECUTE format('GRANT SELECT, INSERT ON %I TO bakehouse_service', t);
  END LOOP;
END $$;

GRANT UPDATE ("hash", "set_at", "set_by") ON "credential" TO bakehouse_service;
GRANT UPDATE ("failures", "last_at", "next_at", "good_at"), DELETE ON "guess_count" TO bakehouse_service;
GRANT UPDATE ("name", "revoked_at", "revoked_by") ON "device" TO bakehouse_service;
GRANT UPDATE ("used_at") ON "enrolment_code" TO bakehouse_service;
GRANT UPDATE ("pin_until", "last_seen_at", "ended_at", "ended_why") ON "session" TO bakehouse_service;

CREATE TRIGGER viewing_append_only BEFORE UPDATE OR DELETE ON "viewing" FOR EACH ROW EXECUTE FUNCTION refuse_change();

-- Whose tablet it is, before anybody has said: the organisation where there is one alone, else null. Runs as the owner and tells no more than that.
CREATE FUNCTION only_organisation() RETURNS uuid LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp
  AS $$ SELECT CASE WHEN count(*) = 1 THEN (array_agg(id))[1] END FROM public.organisation $$;
REVOKE ALL ON FUNCTION only_organisation() FROM PUBLIC;
GRANT EXECUTE ON FUNCTION only_organisation() TO bakehouse_service;
