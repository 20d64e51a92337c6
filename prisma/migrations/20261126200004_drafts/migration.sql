CREATE TABLE "draft" (
    "organisation" UUID NOT NULL,
    "id" UUID NOT NULL,
    "type" TEXT NOT NULL,
    "subject" UUID NOT NULL,
    "based_on" UUID,
    "content" JSONB NOT NULL,
    "revision" INTEGER NOT NULL,
    "made_by" UUID NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "by" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "archived" BOOLEAN NOT NULL DEFAULT false,
    CONSTRAINT "draft_pkey" PRIMARY KEY ("organisation", "id"),
    CONSTRAINT "draft_type" CHECK ("type" IN ('formula', 'plan')),
    CONSTRAINT "draft_revision" CHECK ("revision" > 0)
);
CREATE INDEX "draft_organisation_type_subject_idx" ON "draft"("organisation", "type", "subject");

CREATE TABLE "draft_earlier" (
    "organisation" UUID NOT NULL,
    "draft" UUID NOT NULL,
    "revision" INTEGER NOT NULL,
    "content" JSONB NOT NULL,
    "by" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "archived" BOOLEAN NOT NULL,
    CONSTRAINT "draft_earlier_pkey" PRIMARY KEY ("organisation", "draft", "revision")
);
ALTER TABLE "draft_earlier" ADD CONSTRAINT "draft_earlier_organisation_draft_fkey" FOREIGN KEY ("organisation", "draft") REFERENCES "draft"("organisation", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- The fence: the organisation of this transaction.
DO $$ DECLARE t text; BEGIN
  FOREACH t IN ARRAY ARRAY['draft', 'draft_earlier'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY %I ON %I USING (organisation = current_organisation()) WITH CHECK (organisation = current_organisation())', t || '_fence', t);
    EXECUTE format('GRANT SELECT, INSERT ON %I TO bakehouse_service', t);
  END LOOP;
END $$;

-- A draft is saved over; what it was stays beside it, and neither is ever taken archived.
GRANT UPDATE ("content", "revision", "by", "at", "archived") ON "draft" TO bakehouse_service;
