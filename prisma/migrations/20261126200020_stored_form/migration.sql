-- Bytes that do not say which version of their outcome they hold are no ledger of this program.
DO $$ BEGIN
  IF EXISTS (SELECT FROM "entry") THEN
    RAISE EXCEPTION 'this ledger was written before the form of its records was fixed and cannot be read by this program: begin a new one, or make the demonstration anew with an empty data folder';
  END IF;
END $$;

-- What queries want to know of an entry stands in columns; the hashed bytes say it too, and a verification compares the two.
ALTER TABLE "entry"
  ADD COLUMN "person" UUID NOT NULL,
  ADD COLUMN "precision" TEXT NOT NULL,
  ADD COLUMN "until" TIMESTAMPTZ(3),
  ADD COLUMN "signed_by" UUID,
  ADD COLUMN "signed_at" TIMESTAMPTZ(3),
  ADD COLUMN "signed_as" TEXT,
  ADD CONSTRAINT "entry_precision" CHECK ("precision" IN ('exact', 'about', 'between')),
  ADD CONSTRAINT "entry_until" CHECK (("until" IS NOT NULL) = ("precision" = 'between')),
  ADD CONSTRAINT "entry_signed" CHECK (num_nonnulls("signed_by", "signed_at", "signed_as") IN (0, 3));

-- The version of the program's `rows` that made a book's projections; nothing is made of an empty book yet.
ALTER TABLE "book" ADD COLUMN "projection" INTEGER NOT NULL DEFAULT 0;
GRANT UPDATE ("projection") ON "book" TO bakehouse_service;

-- Contact times are told in seconds, and a clean-down says what the place was called.
ALTER TABLE "clean_down" RENAME COLUMN "contact_minutes" TO "contact_seconds";
ALTER TABLE "clean_down" ADD COLUMN "name" TEXT;
