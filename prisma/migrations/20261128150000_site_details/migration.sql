CREATE TABLE "site_details" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "address" TEXT,
  "phone" TEXT,
  "registration" TEXT,
  "authority" TEXT,
  "authority_phone" TEXT,
  "authority_out_of_hours" TEXT,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "site_details_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "site_details_organisation_book_at_idx" ON "site_details"("organisation", "book", "at");
ALTER TABLE "site_details" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "site_details_fence" ON "site_details" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "site_details" TO bakehouse_service;

-- Written with their entry and changed by their chain alone, as the rows of every other collection.
DO $$ DECLARE t text := 'site_details'; BEGIN
  EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR INSERT WITH CHECK ((SELECT e.xmin FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry) = pg_current_xact_id()::xid OR (SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_with_its_entry', t, t, t, t, t, t);
  EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR UPDATE USING ((SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry))) WITH CHECK ((SELECT e.xmin FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry) = pg_current_xact_id()::xid OR (SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_changed_by_its_chain', t, t, t, t, t, t, t, t, t);
  EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR DELETE USING ((SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_gone_by_its_chain', t, t, t, t);
END $$;
