-- That the authority was told of a recall case, or the public: a row for each time.
CREATE TABLE "recall_notified" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "recall" UUID NOT NULL,
  "to" TEXT NOT NULL,
  "how" TEXT NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "done_by" UUID,
  CONSTRAINT "recall_notified_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "recall_notified_organisation_recall_idx" ON "recall_notified"("organisation", "recall");
CREATE INDEX "recall_notified_organisation_book_at_idx" ON "recall_notified"("organisation", "book", "at");
ALTER TABLE "recall_notified" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "recall_notified_fence" ON "recall_notified" USING ("organisation" = (SELECT current_organisation())) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "recall_notified" TO bakehouse_service;

-- Written with their entry and changed by their chain alone, as the rows of every other collection.
DO $$ DECLARE t text; BEGIN
  FOREACH t IN ARRAY ARRAY['recall_notified'] LOOP
    EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR INSERT WITH CHECK ((SELECT e.xmin FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry) = pg_current_xact_id()::xid OR (SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_with_its_entry', t, t, t, t, t, t);
    EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR UPDATE USING ((SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry))) WITH CHECK ((SELECT e.xmin FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry) = pg_current_xact_id()::xid OR (SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_changed_by_its_chain', t, t, t, t, t, t, t, t, t);
    EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR DELETE USING ((SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_gone_by_its_chain', t, t, t, t);
  END LOOP;
END $$;
