CREATE TABLE "clear_lot" (
    "organisation" UUID NOT NULL,
    "lot" UUID NOT NULL,
    "since" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "clear_lot_pkey" PRIMARY KEY ("organisation", "lot")
);

-- The fence: the organisation of this transaction.
ALTER TABLE "clear_lot" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "clear_lot_fence" ON "clear_lot" USING (organisation = current_organisation()) WITH CHECK (organisation = current_organisation());
GRANT SELECT, INSERT, DELETE ON "clear_lot" TO bakehouse_service;
GRANT UPDATE ("since") ON "clear_lot" TO bakehouse_service;
