ALTER TABLE "divided" ADD COLUMN "weighed_mg" BIGINT;
