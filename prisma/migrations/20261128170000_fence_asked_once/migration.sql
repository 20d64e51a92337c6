-- The fence of every table says whose rows may be seen by a value that is worked out once for a statement, and not at each look-up of it.
DO $$
DECLARE fence record;
BEGIN
  FOR fence IN SELECT tablename, policyname FROM pg_policies
    WHERE schemaname = 'public' AND permissive = 'PERMISSIVE' AND qual = '(organisation = current_organisation())'
  LOOP
    EXECUTE format('ALTER POLICY %I ON %I USING (organisation = (SELECT current_organisation()))', fence.policyname, fence.tablename);
  END LOOP;
END $$;
