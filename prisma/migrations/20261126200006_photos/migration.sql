CREATE TABLE "photo" (
    "organisation" UUID NOT NULL,
    "id" TEXT NOT NULL,
    "book" UUID NOT NULL,
    "media_type" TEXT NOT NULL,
    "bytes" BYTEA NOT NULL,
    "by" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "photo_pkey" PRIMARY KEY ("organisation", "id"),
    CONSTRAINT "photo_id" CHECK ("id" ~ '^[0-9a-f]{64}$')
);
ALTER TABLE "photo" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "photo_fence" ON "photo" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT ON "photo" TO bakehouse_service;
