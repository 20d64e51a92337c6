CREATE TABLE "still_here" (
    "organisation" UUID NOT NULL,
    "id" UUID NOT NULL,
    "book" UUID NOT NULL,
    "type" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "still_here_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "still_here_organisation_book_type_at_idx" ON "still_here"("organisation", "book", "type", "at");

-- Nothing is known of any yet.
INSERT INTO "still_here" ("organisation", "id", "book", "type", "at")
  SELECT "organisation", "id", "book", "type", "at" FROM "lot" WHERE "type" IN ('run', 'batch', 'received', 'placeholder', 'vessel');

-- The fence: the organisation of this transaction.
ALTER TABLE "still_here" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "still_here_fence" ON "still_here" USING (organisation = current_organisation()) WITH CHECK (organisation = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "still_here" TO bakehouse_service;
