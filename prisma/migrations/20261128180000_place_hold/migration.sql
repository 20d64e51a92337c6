-- A place is put on hold: a row of its own, and one that says that it may be used again.
CREATE TABLE "place_hold" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "held" TEXT NOT NULL,
  "place" UUID NOT NULL,
  "place_name" TEXT NOT NULL,
  "begins" TIMESTAMPTZ(3) NOT NULL,
  "ends" TIMESTAMPTZ(3),
  "because" TEXT,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "place_hold_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "place_hold_organisation_held_idx" ON "place_hold"("organisation", "held");
CREATE INDEX "place_hold_organisation_book_at_idx" ON "place_hold"("organisation", "book", "at");
ALTER TABLE "place_hold" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "place_hold_fence" ON "place_hold" USING ("organisation" = (SELECT current_organisation())) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "place_hold" TO bakehouse_service;

CREATE TABLE "place_hold_ended" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "held" TEXT NOT NULL,
  "hold" UUID NOT NULL,
  "place" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "place_hold_ended_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "place_hold_ended_organisation_held_idx" ON "place_hold_ended"("organisation", "held");
CREATE INDEX "place_hold_ended_organisation_hold_idx" ON "place_hold_ended"("organisation", "hold");
CREATE INDEX "place_hold_ended_organisation_book_at_idx" ON "place_hold_ended"("organisation", "book", "at");
ALTER TABLE "place_hold_ended" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "place_hold_ended_fence" ON "place_hold_ended" USING ("organisation" = (SELECT current_organisation())) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "place_hold_ended" TO bakehouse_service;

-- Written with their entry and changed by their chain alone, as the rows of every other collection.
DO $$ DECLARE t text; BEGIN
  FOREACH t IN ARRAY ARRAY['place_hold', 'place_hold_ended'] LOOP
    EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR INSERT WITH CHECK ((SELECT e.xmin FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry) = pg_current_xact_id()::xid OR (SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_with_its_entry', t, t, t, t, t, t);
    EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR UPDATE USING ((SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry))) WITH CHECK ((SELECT e.xmin FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry) = pg_current_xact_id()::xid OR (SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_changed_by_its_chain', t, t, t, t, t, t, t, t, t);
    EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR DELETE USING ((SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_gone_by_its_chain', t, t, t, t);
  END LOOP;
END $$;

-- What was at a place is looked up from the place as well.
CREATE INDEX "place_organisation_within_idx" ON "place"("organisation", "within");
CREATE INDEX "counted_organisation_place_at_idx" ON "counted"("organisation", "place", "at");
CREATE INDEX "moved_organisation_to_place_at_idx" ON "moved"("organisation", "to_place", "at");
CREATE INDEX "moved_organisation_from_place_at_idx" ON "moved"("organisation", "from_place", "at");
CREATE INDEX "stage_organisation_place_at_idx" ON "stage"("organisation", "place", "at");
CREATE INDEX "load_organisation_oven_at_idx" ON "load"("organisation", "oven", "at");
CREATE INDEX "load_organisation_deck_at_idx" ON "load"("organisation", "deck", "at");
