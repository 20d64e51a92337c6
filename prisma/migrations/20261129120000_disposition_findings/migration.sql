ALTER TABLE "disposition" ADD COLUMN "findings" JSONB NOT NULL DEFAULT '[]';
ALTER TABLE "disposition" ALTER COLUMN "findings" DROP DEFAULT;
