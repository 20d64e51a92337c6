ALTER TABLE "departure" ADD COLUMN "decided" TEXT;
ALTER TABLE "recall_closed" ADD COLUMN "stays_on_hold" JSONB NOT NULL DEFAULT '[]', ADD COLUMN "why" TEXT, ADD COLUMN "closed_by" UUID;
ALTER TABLE "recall_closed" ALTER COLUMN "stays_on_hold" DROP DEFAULT;
ALTER TABLE "deviation_closed" ADD COLUMN "stays_on_hold" JSONB NOT NULL DEFAULT '[]', ADD COLUMN "why" TEXT;
ALTER TABLE "deviation_closed" ALTER COLUMN "stays_on_hold" DROP DEFAULT;
