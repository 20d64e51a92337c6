CREATE INDEX "returned_organisation_book_at_idx" ON "returned"("organisation", "book", "at");
DROP INDEX "returned_organisation_book_idx";
