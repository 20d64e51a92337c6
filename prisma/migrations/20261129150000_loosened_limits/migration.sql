-- What a plan version lets through that the plan before it did not, with reason and basis; and which plan a rule for food past its life is of.
ALTER TABLE "plan_version" ADD COLUMN "loosened" JSONB NOT NULL DEFAULT '[]';
ALTER TABLE "plan_version" ALTER COLUMN "loosened" DROP DEFAULT;
ALTER TABLE "plan_life" ADD COLUMN "plan" UUID NOT NULL DEFAULT '00000000-0000-0000-0000-000000000000';
ALTER TABLE "plan_life" ALTER COLUMN "plan" DROP DEFAULT;
