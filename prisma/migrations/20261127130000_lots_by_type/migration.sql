CREATE INDEX "lot_organisation_type_idx" ON "lot"("organisation", "type");
