CREATE TABLE "on_watch" (
    "organisation" UUID NOT NULL,
    "id" UUID NOT NULL,

    CONSTRAINT "on_watch_pkey" PRIMARY KEY ("organisation", "id")
);

-- Nothing is known of any yet.
INSERT INTO "on_watch" ("organisation", "id")
  SELECT "organisation", "id" FROM "lot" UNION SELECT "organisation", "id" FROM "deviation" UNION SELECT "organisation", "id" FROM "hold";

-- The fence: the organisation of this transaction.
ALTER TABLE "on_watch" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "on_watch_fence" ON "on_watch" USING (organisation = current_organisation()) WITH CHECK (organisation = current_organisation());
GRANT SELECT, INSERT, DELETE ON "on_watch" TO bakehouse_service;

-- Deliveries are read in order of time, as everything of a book is.
DROP INDEX "delivery_organisation_book_idx";
CREATE INDEX "delivery_organisation_book_received_at_idx" ON "delivery"("organisation", "book", "received_at");
