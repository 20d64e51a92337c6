ALTER TABLE "flow" ADD COLUMN "day" DATE;
UPDATE "flow" f SET "day" = (f."at" AT TIME ZONE b."zone")::date FROM "book" b WHERE b."organisation" = f."organisation" AND b."id" = f."book";
ALTER TABLE "flow" ALTER COLUMN "day" SET NOT NULL;
ALTER TABLE "deviation" ADD COLUMN "lot" UUID;
