-- What each plan version says of food past its life: a row of its own beside the version.
CREATE TABLE "plan_life" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "rule" TEXT NOT NULL,
  "number" BIGINT NOT NULL,
  "site" UUID,
  "opened" TEXT NOT NULL,
  "made_here" TEXT NOT NULL,
  "since" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "plan_life_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "plan_life_organisation_book_idx" ON "plan_life"("organisation", "book");
CREATE INDEX "plan_life_organisation_rule_idx" ON "plan_life"("organisation", "rule");
ALTER TABLE "plan_life" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "plan_life_fence" ON "plan_life" USING ("organisation" = (SELECT current_organisation())) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "plan_life" TO bakehouse_service;

-- Written with its entry and changed by its chain alone, as the rows of every other collection.
DO $$ DECLARE t text; BEGIN
  FOREACH t IN ARRAY ARRAY['plan_life'] LOOP
    EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR INSERT WITH CHECK ((SELECT e.xmin FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry) = pg_current_xact_id()::xid OR (SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_with_its_entry', t, t, t, t, t, t);
    EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR UPDATE USING ((SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry))) WITH CHECK ((SELECT e.xmin FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry) = pg_current_xact_id()::xid OR (SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_changed_by_its_chain', t, t, t, t, t, t, t, t, t);
    EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR DELETE USING ((SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_gone_by_its_chain', t, t, t, t);
  END LOOP;
END $$;

-- Where something was made or opened: by the plan in force there it is judged past its life. Such a row is of the book of that site.
ALTER TABLE "make" ADD COLUMN "site" UUID;
UPDATE "make" SET "site" = "book";
ALTER TABLE "make" ALTER COLUMN "site" SET NOT NULL;
ALTER TABLE "in_use" ADD COLUMN "site" UUID;
UPDATE "in_use" SET "site" = "book";
ALTER TABLE "in_use" ALTER COLUMN "site" SET NOT NULL;
