CREATE TABLE "refusal_ended" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "refusal" UUID NOT NULL,
  "lot" UUID NOT NULL,
  "covers" TEXT NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "refusal_ended_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "refusal_ended_organisation_book_idx" ON "refusal_ended"("organisation", "book");
CREATE INDEX "refusal_ended_organisation_lot_idx" ON "refusal_ended"("organisation", "lot");
ALTER TABLE "refusal_ended" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "refusal_ended_fence" ON "refusal_ended" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "refusal_ended" TO bakehouse_service;

CREATE INDEX "reading_organisation_instrument_at_idx" ON "reading"("organisation", "instrument", "at");
CREATE INDEX "reading_organisation_class_verdict_idx" ON "reading"("organisation", "class", "verdict");
DROP INDEX "instrument_check_organisation_instrument_idx";
CREATE INDEX "instrument_check_organisation_instrument_at_idx" ON "instrument_check"("organisation", "instrument", "at");
