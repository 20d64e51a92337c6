ALTER TABLE "batch" ADD COLUMN "site" UUID, ADD COLUMN "done_by" UUID;
UPDATE "batch" SET "site" = "book";
ALTER TABLE "batch" ALTER COLUMN "site" SET NOT NULL;
