-- That the seals of a book are made with another key from a size on, signed by the key before. Like a seal it is added and never changed.
CREATE TABLE "key_change" (
    "organisation" UUID NOT NULL,
    "book" UUID NOT NULL,
    "turn" INTEGER NOT NULL,
    "size" BIGINT NOT NULL,
    "note" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    CONSTRAINT "key_change_pkey" PRIMARY KEY ("organisation", "book", "turn")
);
ALTER TABLE "key_change" ADD CONSTRAINT "key_change_organisation_book_fkey" FOREIGN KEY ("organisation", "book") REFERENCES "book"("organisation", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;
ALTER TABLE "key_change" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "key_change_fence" ON "key_change" USING (organisation = current_organisation()) WITH CHECK (organisation = current_organisation());
GRANT SELECT, INSERT ON "key_change" TO bakehouse_service;
CREATE TRIGGER key_change_append_only BEFORE UPDATE OR DELETE ON "key_change" FOR EACH ROW EXECUTE FUNCTION refuse_change();
