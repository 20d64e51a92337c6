-- What a version of a formula lets through that the one before it did not, and what was noted when it was approved.
ALTER TABLE "formula_version" ADD COLUMN "loosened" JSONB NOT NULL DEFAULT '[]', ADD COLUMN "note" TEXT;
ALTER TABLE "formula_version" ALTER COLUMN "loosened" DROP DEFAULT;
