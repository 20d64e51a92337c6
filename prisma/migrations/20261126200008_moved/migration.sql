CREATE TABLE "moved" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "lot" UUID NOT NULL,
  "from_place" UUID,
  "to_place" UUID NOT NULL,
  "to_name" TEXT NOT NULL,
  "mg" BIGINT,
  "pieces" BIGINT,
  "how" TEXT NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "moved_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "moved_organisation_book_idx" ON "moved"("organisation", "book");
CREATE INDEX "moved_organisation_lot_idx" ON "moved"("organisation", "lot");
ALTER TABLE "moved" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "moved_fence" ON "moved" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "moved" TO bakehouse_service;
