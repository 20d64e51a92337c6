-- Over what a real case was closed: who was not recorded as told, which customers were not reached, and why. Empty where nobody was asked.
ALTER TABLE "recall_closed" ADD COLUMN "not_told" JSONB;
ALTER TABLE "recall_closed" ADD COLUMN "why_authority_not_told" TEXT;
ALTER TABLE "recall_closed" ADD COLUMN "why_no_notice" TEXT;
ALTER TABLE "recall_closed" ADD COLUMN "not_reached" JSONB;
ALTER TABLE "recall_closed" ADD COLUMN "why_not_reached" TEXT;
