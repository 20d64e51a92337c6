-- A lot's code without what people write in more than one way: capitals, spaces and dashes. `lotCodeKey` in the records gives the same.
CREATE FUNCTION lot_code_key(code text) RETURNS text LANGUAGE sql IMMUTABLE STRICT PARALLEL SAFE AS $$
  SELECT pg_catalog.translate(code,
    U&'ABCDEFGHIJKLMNOPQRSTUVWXYZ-\2010\2011\2012\2013\2014\2015\2212\FE58\FE63\FF0D \0009\000A\000B\000C\000D\00A0\1680\2000\2001\2002\2003\2004\2005\2006\2007\2008\2009\200A\2028\2029\202F\205F\3000\FEFF',
    'abcdefghijklmnopqrstuvwxyz')
$$;
REVOKE ALL ON FUNCTION lot_code_key(text) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION lot_code_key(text) TO bakehouse_service;

-- Anything inside a code, by an index of its groups of three letters. A server without that extension, or an owner who may not add it, looks through the codes instead.
DO $$
DECLARE
  ops text;
BEGIN
  CREATE SCHEMA IF NOT EXISTS trigrams;
  CREATE EXTENSION IF NOT EXISTS pg_trgm SCHEMA trigrams;
  GRANT USAGE ON SCHEMA trigrams TO bakehouse_service; -- a copy of a table with its indexes names what they are made with
  SELECT quote_ident(n.nspname) || '.gin_trgm_ops' INTO ops FROM pg_extension e JOIN pg_namespace n ON n.oid = e.extnamespace WHERE e.extname = 'pg_trgm';
  EXECUTE 'CREATE INDEX lot_code_inside ON lot USING gin (lot_code_key(code) ' || ops || ') WITH (fastupdate = off) WHERE code IS NOT NULL';
  EXECUTE 'CREATE INDEX batch_code_inside ON batch USING gin (lot_code_key(code) ' || ops || ') WITH (fastupdate = off)';
  EXECUTE 'CREATE INDEX lot_identified_code_inside ON lot_identified USING gin (lot_code_key(code) ' || ops || ') WITH (fastupdate = off) WHERE code IS NOT NULL';
EXCEPTION WHEN undefined_file OR feature_not_supported OR insufficient_privilege THEN
  RAISE NOTICE 'no index for what is inside a code: %', SQLERRM;
END
$$;

-- Lots whose code has this anywhere in it, the whole code first, then the newest. Each table is looked through by what is inside the code alone, and fenced after.
CREATE FUNCTION lots_by_code_inside(inside text, books uuid[], most integer) RETURNS SETOF uuid
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp SET enable_bitmapscan = on SET enable_seqscan = off AS $$
  WITH asked AS (
    SELECT public.lot_code_key(inside) AS key, '%' || regexp_replace(nullif(public.lot_code_key(inside), ''), '([\\%_])', '\\\1', 'g') || '%' AS pattern
  ), l AS MATERIALIZED (
    SELECT id, organisation, book, at, public.lot_code_key(code) AS key FROM public.lot WHERE code IS NOT NULL AND public.lot_code_key(code) LIKE (SELECT pattern FROM asked)
  ), b AS MATERIALIZED (
    SELECT id, organisation, book, at, public.lot_code_key(code) AS key FROM public.batch WHERE public.lot_code_key(code) LIKE (SELECT pattern FROM asked)
  ), i AS MATERIALIZED (
    SELECT lot, organisation, public.lot_code_key(code) AS key FROM public.lot_identified WHERE code IS NOT NULL AND public.lot_code_key(code) LIKE (SELECT pattern FROM asked)
  ), f AS (
    SELECT id, book, at, key FROM l WHERE organisation = public.current_organisation() AND book = ANY (books)
    UNION ALL SELECT id, book, at, key FROM b WHERE organisation = public.current_organisation() AND book = ANY (books)
    UNION ALL SELECT n.id, n.book, n.at, i.key FROM i CROSS JOIN LATERAL (
      SELECT id, book, at FROM public.lot WHERE organisation = public.current_organisation() AND id = i.lot AND book = ANY (books) OFFSET 0) n
    WHERE i.organisation = public.current_organisation()
  )
  SELECT f.id FROM f CROSS JOIN asked GROUP BY f.id ORDER BY bool_or(f.key = asked.key) DESC, max(f.at) DESC LIMIT most
$$;
REVOKE ALL ON FUNCTION lots_by_code_inside(text, uuid[], integer) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION lots_by_code_inside(text, uuid[], integer) TO bakehouse_service;
