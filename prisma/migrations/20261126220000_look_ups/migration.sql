-- What came next at a station, and when it was cleaned next.
CREATE INDEX "make_organisation_book_station_at_idx" ON "make"("organisation", "book", "station", "at");
CREATE INDEX "clean_down_organisation_place_at_idx" ON "clean_down"("organisation", "place", "at");

-- Lots of a site by what they are called, and the newest of a site.
CREATE INDEX "lot_organisation_book_name_at_idx" ON "lot"("organisation", "book", "name", "at");
CREATE INDEX "lot_organisation_book_at_idx" ON "lot"("organisation", "book", "at");
CREATE INDEX "batch_organisation_book_at_idx" ON "batch"("organisation", "book", "at");

-- These begin as shorter ones do, which tell nothing more and would be taken instead where nothing is known of the table.
DROP INDEX "make_organisation_book_idx";
DROP INDEX "lot_organisation_book_idx";
DROP INDEX "batch_organisation_book_idx";
DROP INDEX "clean_down_organisation_place_idx";

-- Codes of a site by how they begin, in capitals or not.
CREATE INDEX "lot_code_begins" ON "lot"("organisation", ("book"::text || lower("code")) text_pattern_ops) WHERE "code" IS NOT NULL;
CREATE INDEX "batch_code_begins" ON "batch"("organisation", ("book"::text || lower("code")) text_pattern_ops);
CREATE INDEX "lot_identified_code_begins" ON "lot_identified"("organisation", lower("code") text_pattern_ops) WHERE "code" IS NOT NULL;

-- lower() is not leakproof, so the fence keeps a query of the service's from looking up by these indexes. This function passes the fence and states it
-- again itself. Each source gives the first of its codes in their order, so that an exact one is among them.
CREATE FUNCTION lots_by_code(begins text, books uuid[], most integer) RETURNS SETOF uuid
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
  SELECT l.id FROM unnest(books) s(book) CROSS JOIN LATERAL (
    SELECT id FROM public.lot WHERE organisation = public.current_organisation() AND code IS NOT NULL
      AND (book::text || lower(code)) ~>=~ (s.book::text || lower(begins))
      AND (book::text || lower(code)) ~<~ (s.book::text || lower(begins) || U&'\+10FFFF')
    ORDER BY (book::text || lower(code)) USING ~<~ LIMIT most) l
  UNION ALL
  SELECT b.id FROM unnest(books) s(book) CROSS JOIN LATERAL (
    SELECT id FROM public.batch WHERE organisation = public.current_organisation()
      AND (book::text || lower(code)) ~>=~ (s.book::text || lower(begins))
      AND (book::text || lower(code)) ~<~ (s.book::text || lower(begins) || U&'\+10FFFF')
    ORDER BY (book::text || lower(code)) USING ~<~ LIMIT most) b
  UNION ALL
  (SELECT l.id FROM public.lot_identified i CROSS JOIN LATERAL (
    SELECT id FROM public.lot WHERE organisation = public.current_organisation() AND id = i.lot AND book = ANY (books) OFFSET 0) l
   WHERE i.organisation = public.current_organisation() AND i.code IS NOT NULL
     AND lower(i.code) ~>=~ lower(begins) AND lower(i.code) ~<~ (lower(begins) || U&'\+10FFFF')
   ORDER BY lower(i.code) USING ~<~ LIMIT most)
$$;
REVOKE ALL ON FUNCTION lots_by_code(text, uuid[], integer) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION lots_by_code(text, uuid[], integer) TO bakehouse_service;
