-- A PIN given for one entry lets that entry in and makes the session no stronger.
ALTER TABLE "session" DROP COLUMN "pin_until";
