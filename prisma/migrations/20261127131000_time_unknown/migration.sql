-- A device whose clock cannot be right loses nothing: its record is taken, and says that its time is unknown.
ALTER TABLE "entry"
  DROP CONSTRAINT "entry_precision",
  ADD CONSTRAINT "entry_precision" CHECK ("precision" IN ('exact', 'about', 'between', 'unknown'));
