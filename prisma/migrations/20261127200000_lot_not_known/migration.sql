-- Lots of one material that nobody could name, from an instant on, by index.
DROP INDEX "lot_organisation_material_idx";
CREATE INDEX "lot_organisation_material_type_at_idx" ON "lot"("organisation", "material", "type", "at");
-- Noted before a lot that nobody knows was looked for.
DELETE FROM "clear_lot";
