CREATE TABLE "recall_decision" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "recall" UUID NOT NULL,
  "lot" UUID NOT NULL,
  "decision" TEXT NOT NULL,
  "covers" TEXT NOT NULL,
  "pieces" BIGINT,
  "mg" BIGINT,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "recall_decision_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "recall_decision_organisation_book_idx" ON "recall_decision"("organisation", "book");
CREATE INDEX "recall_decision_organisation_recall_idx" ON "recall_decision"("organisation", "recall");
CREATE INDEX "recall_decision_organisation_lot_idx" ON "recall_decision"("organisation", "lot");
ALTER TABLE "recall_decision" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "recall_decision_fence" ON "recall_decision" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "recall_decision" TO bakehouse_service;

ALTER TABLE "recall_scope_lot" ADD COLUMN "begins" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "recall_scope_lot" ALTER COLUMN "begins" DROP DEFAULT;
ALTER TABLE "disposition" ADD COLUMN "covers" TEXT NOT NULL DEFAULT 'what-came-of-it';
ALTER TABLE "disposition" ALTER COLUMN "covers" DROP DEFAULT;
DROP INDEX "hold_organisation_recall_idx";
ALTER TABLE "hold" DROP COLUMN "recall";
