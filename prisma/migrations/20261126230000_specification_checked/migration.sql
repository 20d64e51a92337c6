ALTER TABLE "specification" ADD COLUMN "checked" JSONB;
