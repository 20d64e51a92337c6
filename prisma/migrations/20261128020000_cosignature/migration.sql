-- What witnesses outside the house signed of a seal, each with its own key. Like a seal it is added and never changed.
CREATE TABLE "cosignature" (
    "organisation" UUID NOT NULL,
    "book" UUID NOT NULL,
    "size" BIGINT NOT NULL,
    "witness" TEXT NOT NULL,
    "line" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "cosignature_pkey" PRIMARY KEY ("organisation", "book", "size", "witness")
);
ALTER TABLE "cosignature" ADD CONSTRAINT "cosignature_organisation_book_size_fkey" FOREIGN KEY ("organisation", "book", "size") REFERENCES "seal"("organisation", "book", "size") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "cosignature" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "cosignature_fence" ON "cosignature" USING (organisation = current_organisation()) WITH CHECK (organisation = current_organisation());
GRANT SELECT, INSERT ON "cosignature" TO bakehouse_service;
CREATE TRIGGER cosignature_append_only BEFORE UPDATE OR DELETE ON "cosignature" FOR EACH ROW EXECUTE FUNCTION refuse_change();
