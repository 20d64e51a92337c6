-- What was made for later may still be in the house, like what came in: noted from now on, and here for what was made before. What is gone is let go by the service.
INSERT INTO "still_here" ("organisation", "id", "book", "type", "at")
SELECT "organisation", "id", "book", "type", "at" FROM "lot" WHERE "type" IN ('made', 'old-dough')
ON CONFLICT DO NOTHING;
