-- What the service's role may do to the rows that entries give: write those of an entry that this transaction appends, and change or take away those of a chain
-- that it appends to. The owner, who makes rows again, is not held by row security.
DO $$ DECLARE t text; BEGIN
  FOREACH t IN ARRAY ARRAY['access_ended', 'access_given', 'batch', 'clean_down', 'control_point', 'corrective_action', 'counted', 'delivery', 'departure', 'deviation', 'deviation_closed', 'disposition', 'divided', 'emptied', 'flow', 'formula_retired', 'formula_version', 'hold', 'hold_lifted', 'in_use', 'instrument', 'instrument_check', 'instrument_out', 'load', 'load_line', 'load_step', 'lot', 'lot_identified', 'make', 'make_ended', 'mixed', 'moved', 'on_counter', 'one_off', 'party', 'party_stopped', 'person', 'person_left', 'place', 'place_out', 'plan_version', 'reading', 'reading_not_taken', 'recall_case', 'recall_closed', 'recall_contact', 'recall_decision', 'recall_scope_lot', 'receipt_decision', 'refusal_ended', 'release', 'released_subject', 'returned', 'role_given', 'role_taken', 'run', 'specification', 'stage'] LOOP
    EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR INSERT WITH CHECK ((SELECT e.xmin FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry) = pg_current_xact_id()::xid OR (SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_with_its_entry', t, t, t, t, t, t);
    EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR UPDATE USING ((SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry))) WITH CHECK ((SELECT e.xmin FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry) = pg_current_xact_id()::xid OR (SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_changed_by_its_chain', t, t, t, t, t, t, t, t, t);
    EXECUTE format('CREATE POLICY %I ON %I AS RESTRICTIVE FOR DELETE USING ((SELECT bool_or(c.xmin = pg_current_xact_id()::xid) FROM entry c WHERE c.organisation = %I.organisation AND c.root = (SELECT e.root FROM entry e WHERE e.organisation = %I.organisation AND e.id = %I.entry)))', t || '_gone_by_its_chain', t, t, t, t);
  END LOOP;
END $$;

-- What ended stays ended, and what was used stays used: a second lock that the owner has to take away first, which is seen.
CREATE FUNCTION refuse_undoing() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN
  RAISE EXCEPTION 'what was ended or used in % is not undone', TG_TABLE_NAME USING ERRCODE = 'insufficient_privilege';
END $$;
CREATE TRIGGER session_stays_ended BEFORE UPDATE ON "session" FOR EACH ROW
  WHEN (OLD."ended_at" IS NOT NULL AND (NEW."ended_at" IS DISTINCT FROM OLD."ended_at" OR NEW."ended_why" IS DISTINCT FROM OLD."ended_why")) EXECUTE FUNCTION refuse_undoing();
CREATE TRIGGER device_stays_revoked BEFORE UPDATE ON "device" FOR EACH ROW
  WHEN (OLD."revoked_at" IS NOT NULL AND (NEW."revoked_at" IS DISTINCT FROM OLD."revoked_at" OR NEW."revoked_by" IS DISTINCT FROM OLD."revoked_by")) EXECUTE FUNCTION refuse_undoing();
CREATE TRIGGER signature_token_stays_used BEFORE UPDATE ON "signature_token" FOR EACH ROW
  WHEN (OLD."used_by" IS NOT NULL AND NEW."used_by" IS DISTINCT FROM OLD."used_by") EXECUTE FUNCTION refuse_undoing();
CREATE TRIGGER enrolment_code_stays_used BEFORE UPDATE ON "enrolment_code" FOR EACH ROW
  WHEN (OLD."used_at" IS NOT NULL AND NEW."used_at" IS DISTINCT FROM OLD."used_at") EXECUTE FUNCTION refuse_undoing();

-- Houses are begun and named by the owner.
REVOKE INSERT, UPDATE ON "organisation" FROM bakehouse_service;
