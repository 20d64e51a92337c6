-- Roles belong to the whole server, so the runner makes "bakehouse_service" before the first migration; see NOTE.md.
GRANT USAGE ON SCHEMA public TO bakehouse_service;

CREATE TABLE "organisation" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "organisation_pkey" PRIMARY KEY ("id")
);

-- Which organisation a transaction is for is set with set_config('app.organisation', …, true). None set: null, and nothing is seen.
ALTER TABLE "organisation" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "organisation_fence" ON "organisation"
  USING ("id" = nullif(current_setting('app.organisation', true), '')::uuid)
  WITH CHECK ("id" = nullif(current_setting('app.organisation', true), '')::uuid);
GRANT SELECT, INSERT, UPDATE ON "organisation" TO bakehouse_service;
