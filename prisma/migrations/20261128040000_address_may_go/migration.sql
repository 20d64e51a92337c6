-- A note at the door stays as it was written, but for the address in it, which goes where the person's name is erased. The service's role may change none of it.
DROP TRIGGER security_event_unchanged ON "security_event";
CREATE TRIGGER security_event_unchanged BEFORE UPDATE ON "security_event" FOR EACH ROW
  WHEN (NEW."address" IS NOT NULL OR to_jsonb(NEW) - 'address' IS DISTINCT FROM to_jsonb(OLD) - 'address') EXECUTE FUNCTION refuse_change();
