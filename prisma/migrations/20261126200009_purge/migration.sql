GRANT DELETE ON "session", "signature_token", "enrolment_code", "set_aside", "viewing" TO bakehouse_service;

-- The second lock, by the database's own clock.
DROP TRIGGER viewing_append_only ON "viewing";
CREATE TRIGGER viewing_unchanged BEFORE UPDATE ON "viewing" FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER viewing_kept BEFORE DELETE ON "viewing" FOR EACH ROW WHEN (OLD."at" > now() - interval '1 year') EXECUTE FUNCTION refuse_change();
CREATE TRIGGER set_aside_kept BEFORE DELETE ON "set_aside" FOR EACH ROW WHEN (OLD."received_at" > now() - interval '7 days') EXECUTE FUNCTION refuse_change();

-- Whose data is to be purged, one fence after another. Runs as the owner and tells ids alone.
CREATE FUNCTION every_organisation() RETURNS SETOF uuid LANGUAGE sql STABLE SECURITY DEFINER SET search_path = pg_catalog, pg_temp
  AS $$ SELECT id FROM public.organisation ORDER BY id $$;
REVOKE ALL ON FUNCTION every_organisation() FROM PUBLIC;
GRANT EXECUTE ON FUNCTION every_organisation() TO bakehouse_service;
