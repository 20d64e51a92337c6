-- Anything inside the number of a delivery note, by an index of its groups of three letters where the server has them. `lot_code_key` takes away what people write in more than one way.
DO $$
DECLARE
  ops text;
BEGIN
  SELECT quote_ident(n.nspname) || '.gin_trgm_ops' INTO ops FROM pg_extension e JOIN pg_namespace n ON n.oid = e.extnamespace WHERE e.extname = 'pg_trgm';
  IF ops IS NOT NULL THEN
    EXECUTE 'CREATE INDEX delivery_note_inside ON delivery USING gin (lot_code_key(note) ' || ops || ') WITH (fastupdate = off) WHERE note IS NOT NULL';
  END IF;
END
$$;

-- Deliveries whose note's number has this anywhere in it, the whole number first, then the newest. Looked through by what is inside the number alone, and fenced after.
CREATE FUNCTION deliveries_by_note_inside(inside text, books uuid[], most integer) RETURNS SETOF uuid
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp SET enable_bitmapscan = on SET enable_seqscan = off AS $$
  WITH asked AS (
    SELECT public.lot_code_key(inside) AS key, '%' || regexp_replace(nullif(public.lot_code_key(inside), ''), '([\\%_])', '\\\1', 'g') || '%' AS pattern
  ), d AS MATERIALIZED (
    SELECT id, organisation, book, received_at, public.lot_code_key(note) AS key FROM public.delivery
    WHERE note IS NOT NULL AND public.lot_code_key(note) LIKE (SELECT pattern FROM asked)
  )
  SELECT d.id FROM d CROSS JOIN asked WHERE d.organisation = public.current_organisation() AND d.book = ANY (books)
  ORDER BY d.key = asked.key DESC, d.received_at DESC, d.id LIMIT most
$$;
REVOKE ALL ON FUNCTION deliveries_by_note_inside(text, uuid[], integer) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION deliveries_by_note_inside(text, uuid[], integer) TO bakehouse_service;
