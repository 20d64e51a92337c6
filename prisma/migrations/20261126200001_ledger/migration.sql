-- The organisation whose rows this transaction may see; null (and so nothing) where none was set.
CREATE FUNCTION current_organisation() RETURNS uuid LANGUAGE sql STABLE AS $$ SELECT nullif(current_setting('app.organisation', true), '')::uuid $$;

CREATE TABLE "book" (
    "organisation" UUID NOT NULL,
    "id" UUID NOT NULL,
    "type" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "zone" TEXT NOT NULL,
    "day_starts" TEXT NOT NULL DEFAULT '00:00',
    "size" BIGINT NOT NULL DEFAULT 0,
    "frontier" TEXT[] NOT NULL DEFAULT ARRAY[]::TEXT[],
    "last_at" TIMESTAMPTZ(3),
    CONSTRAINT "book_pkey" PRIMARY KEY ("organisation", "id"),
    CONSTRAINT "book_type" CHECK ("type" IN ('site', 'organisation'))
);

CREATE TABLE "entry" (
    "organisation" UUID NOT NULL,
    "book" UUID NOT NULL,
    "seq" BIGINT NOT NULL,
    "id" UUID NOT NULL,
    "root" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "leaf" BYTEA NOT NULL,
    "input_hash" BYTEA NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "entry_pkey" PRIMARY KEY ("organisation", "book", "seq")
);
CREATE UNIQUE INDEX "entry_organisation_id_key" ON "entry"("organisation", "id");
CREATE INDEX "entry_organisation_root_idx" ON "entry"("organisation", "root");
ALTER TABLE "entry" ADD CONSTRAINT "entry_organisation_book_fkey" FOREIGN KEY ("organisation", "book") REFERENCES "book"("organisation", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

CREATE TABLE "entry_body" (
    "organisation" UUID NOT NULL,
    "book" UUID NOT NULL,
    "seq" BIGINT NOT NULL,
    "bytes" BYTEA NOT NULL,
    CONSTRAINT "entry_body_pkey" PRIMARY KEY ("organisation", "book", "seq")
);
ALTER TABLE "entry_body" ADD CONSTRAINT "entry_body_organisation_book_seq_fkey" FOREIGN KEY ("organisation", "book", "seq") REFERENCES "entry"("organisation", "book", "seq") ON DELETE RESTRICT ON UPDATE RESTRICT;

CREATE TABLE "entry_word" (
    "organisation" UUID NOT NULL,
    "entry" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "salt" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    CONSTRAINT "entry_word_pkey" PRIMARY KEY ("organisation", "entry", "key")
);

CREATE TABLE "sending" (
    "organisation" UUID NOT NULL,
    "entry" UUID NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "session" UUID,
    "attempt" INTEGER,
    CONSTRAINT "sending_pkey" PRIMARY KEY ("organisation", "entry")
);

CREATE TABLE "set_aside" (
    "organisation" UUID NOT NULL,
    "book" UUID NOT NULL,
    "id" UUID NOT NULL,
    "entry" UUID,
    "as" TEXT NOT NULL,
    "problem" TEXT,
    "field" TEXT,
    "person" UUID NOT NULL,
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "body" JSONB NOT NULL,
    CONSTRAINT "set_aside_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "set_aside_organisation_entry_idx" ON "set_aside"("organisation", "entry");

CREATE TABLE "signature_token" (
    "organisation" UUID NOT NULL,
    "token_hash" BYTEA NOT NULL,
    "person" UUID NOT NULL,
    "input_hash" BYTEA NOT NULL,
    "meaning" TEXT NOT NULL,
    "signed_at" TIMESTAMPTZ(3) NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "used_by" UUID,
    CONSTRAINT "signature_token_pkey" PRIMARY KEY ("organisation", "token_hash")
);

CREATE TABLE "seal" (
    "organisation" UUID NOT NULL,
    "book" UUID NOT NULL,
    "size" BIGINT NOT NULL,
    "root" BYTEA NOT NULL,
    "note" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "seal_pkey" PRIMARY KEY ("organisation", "book", "size")
);
ALTER TABLE "seal" ADD CONSTRAINT "seal_organisation_book_fkey" FOREIGN KEY ("organisation", "book") REFERENCES "book"("organisation", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- The fence: every table, the organisation of this transaction.
DO $$ DECLARE t text; BEGIN
  FOREACH t IN ARRAY ARRAY['book', 'entry', 'entry_body', 'entry_word', 'sending', 'set_aside', 'signature_token', 'seal'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY %I ON %I USING (organisation = current_organisation()) WITH CHECK (organisation = current_organisation())', t || '_fence', t);
    EXECUTE format('GRANT SELECT ON %I TO bakehouse_service', t);
  END LOOP;
END $$;

-- Append-only by grant: no UPDATE, no DELETE on what was recorded.
GRANT INSERT ON "entry", "entry_body", "entry_word", "sending", "set_aside", "signature_token", "seal" TO bakehouse_service;
GRANT UPDATE ("size", "frontier", "last_at") ON "book" TO bakehouse_service;
GRANT UPDATE ("used_by") ON "signature_token" TO bakehouse_service;

-- The second lock: even an owner has to take the trigger away first, which is seen.
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
  RAISE EXCEPTION '% is append-only', TG_TABLE_NAME USING ERRCODE = 'insufficient_privilege';
END $$;
CREATE TRIGGER entry_append_only BEFORE UPDATE OR DELETE ON "entry" FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER entry_body_append_only BEFORE UPDATE ON "entry_body" FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER seal_append_only BEFORE UPDATE OR DELETE ON "seal" FOR EACH ROW EXECUTE FUNCTION refuse_change();
