-- A supplier's lot is looked up by its code however that is spelt. The rows are made anew with it (`npm run records -- rebuild`); until then the column is empty.
ALTER TABLE "lot" ADD COLUMN "code_key" TEXT;
ALTER TABLE "lot_identified" ADD COLUMN "code_key" TEXT;
DROP INDEX "lot_organisation_code_idx";
DROP INDEX "lot_identified_organisation_code_idx";
CREATE INDEX "lot_organisation_code_key_idx" ON "lot"("organisation", "code_key");
CREATE INDEX "lot_identified_organisation_code_key_idx" ON "lot_identified"("organisation", "code_key");
