-- The first load of a product in an oven on a day, by index: the later ones rest on what is read at it.
DROP INDEX "load_line_organisation_bake_day_idx";
CREATE INDEX "load_line_organisation_bake_day_product_oven_at_idx" ON "load_line"("organisation", "bake_day", "product", "oven", "at");
