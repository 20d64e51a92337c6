-- Between when something flowed, left or stood on a counter, where its instant is not known exactly; null where it is.
ALTER TABLE "flow" ADD COLUMN "earliest" TIMESTAMPTZ(3), ADD COLUMN "latest" TIMESTAMPTZ(3);
ALTER TABLE "departure" ADD COLUMN "earliest" TIMESTAMPTZ(3);
ALTER TABLE "on_counter" ADD COLUMN "earliest" TIMESTAMPTZ(3);
