-- What the ledger's entries give, one table a collection: dropped and made again by a rebuild. See NOTE.md.
CREATE TABLE "person" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "name" TEXT,
  "joined_at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "person_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "person_organisation_book_idx" ON "person"("organisation", "book");
ALTER TABLE "person" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "person_fence" ON "person" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "person" TO bakehouse_service;

CREATE TABLE "person_left" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "person" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "person_left_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "person_left_organisation_book_idx" ON "person_left"("organisation", "book");
CREATE INDEX "person_left_organisation_person_idx" ON "person_left"("organisation", "person");
ALTER TABLE "person_left" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "person_left_fence" ON "person_left" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "person_left" TO bakehouse_service;

CREATE TABLE "role_given" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "person" UUID NOT NULL,
  "role" TEXT NOT NULL,
  "site" UUID,
  "since" TIMESTAMPTZ(3) NOT NULL,
  "until" TIMESTAMPTZ(3),
  CONSTRAINT "role_given_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "role_given_organisation_book_idx" ON "role_given"("organisation", "book");
CREATE INDEX "role_given_organisation_person_idx" ON "role_given"("organisation", "person");
ALTER TABLE "role_given" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "role_given_fence" ON "role_given" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "role_given" TO bakehouse_service;

CREATE TABLE "role_taken" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "given" UUID NOT NULL,
  "person" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "role_taken_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "role_taken_organisation_book_idx" ON "role_taken"("organisation", "book");
CREATE INDEX "role_taken_organisation_person_idx" ON "role_taken"("organisation", "person");
CREATE INDEX "role_taken_organisation_given_idx" ON "role_taken"("organisation", "given");
ALTER TABLE "role_taken" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "role_taken_fence" ON "role_taken" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "role_taken" TO bakehouse_service;

CREATE TABLE "place" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "name" TEXT NOT NULL,
  "type" TEXT NOT NULL,
  "within" UUID,
  "since" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "place_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "place_organisation_book_idx" ON "place"("organisation", "book");
ALTER TABLE "place" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "place_fence" ON "place" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "place" TO bakehouse_service;

CREATE TABLE "place_out" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "place" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "place_out_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "place_out_organisation_book_idx" ON "place_out"("organisation", "book");
CREATE INDEX "place_out_organisation_place_idx" ON "place_out"("organisation", "place");
ALTER TABLE "place_out" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "place_out_fence" ON "place_out" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "place_out" TO bakehouse_service;

CREATE TABLE "instrument" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "name" TEXT NOT NULL,
  "type" TEXT NOT NULL,
  "half_width_milli" BIGINT NOT NULL,
  "unit" TEXT NOT NULL,
  "since" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "instrument_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "instrument_organisation_book_idx" ON "instrument"("organisation", "book");
ALTER TABLE "instrument" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "instrument_fence" ON "instrument" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "instrument" TO bakehouse_service;

CREATE TABLE "instrument_out" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "instrument" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "instrument_out_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "instrument_out_organisation_book_idx" ON "instrument_out"("organisation", "book");
CREATE INDEX "instrument_out_organisation_instrument_idx" ON "instrument_out"("organisation", "instrument");
ALTER TABLE "instrument_out" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "instrument_out_fence" ON "instrument_out" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "instrument_out" TO bakehouse_service;

CREATE TABLE "instrument_check" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "instrument" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "way" TEXT NOT NULL,
  "milli" BIGINT NOT NULL,
  "reference_milli" BIGINT NOT NULL,
  "tolerance_milli" BIGINT NOT NULL,
  "passed" BOOLEAN NOT NULL,
  CONSTRAINT "instrument_check_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "instrument_check_organisation_book_idx" ON "instrument_check"("organisation", "book");
CREATE INDEX "instrument_check_organisation_instrument_idx" ON "instrument_check"("organisation", "instrument");
ALTER TABLE "instrument_check" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "instrument_check_fence" ON "instrument_check" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "instrument_check" TO bakehouse_service;

CREATE TABLE "specification" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "material" UUID NOT NULL,
  "name" TEXT NOT NULL,
  "type" TEXT NOT NULL,
  "counted_in" TEXT NOT NULL,
  "density_mg_per_ml" BIGINT,
  "storage" TEXT NOT NULL,
  "life_days" BIGINT,
  "life_opened_hours" BIGINT,
  "contains" JSONB NOT NULL,
  "may_contain" JSONB NOT NULL,
  "flour" BOOLEAN NOT NULL,
  "animal_origin" BOOLEAN NOT NULL,
  "supplier" UUID,
  "since" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "specification_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "specification_organisation_book_idx" ON "specification"("organisation", "book");
CREATE INDEX "specification_organisation_material_idx" ON "specification"("organisation", "material");
ALTER TABLE "specification" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "specification_fence" ON "specification" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "specification" TO bakehouse_service;

CREATE TABLE "party" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "party" UUID NOT NULL,
  "type" TEXT NOT NULL,
  "name" TEXT,
  "contact_name" TEXT,
  "phone" TEXT,
  "email" TEXT,
  "address" TEXT,
  "vulnerable" BOOLEAN NOT NULL,
  "unattended" BOOLEAN NOT NULL,
  "since" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "party_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "party_organisation_book_idx" ON "party"("organisation", "book");
CREATE INDEX "party_organisation_party_idx" ON "party"("organisation", "party");
ALTER TABLE "party" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "party_fence" ON "party" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "party" TO bakehouse_service;

CREATE TABLE "party_stopped" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "party" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "party_stopped_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "party_stopped_organisation_book_idx" ON "party_stopped"("organisation", "book");
CREATE INDEX "party_stopped_organisation_party_idx" ON "party_stopped"("organisation", "party");
ALTER TABLE "party_stopped" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "party_stopped_fence" ON "party_stopped" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "party_stopped" TO bakehouse_service;

CREATE TABLE "formula_version" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "formula" UUID NOT NULL,
  "number" BIGINT NOT NULL,
  "name" TEXT NOT NULL,
  "type" TEXT NOT NULL,
  "content" JSONB NOT NULL,
  "since" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "formula_version_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "formula_version_organisation_book_idx" ON "formula_version"("organisation", "book");
CREATE INDEX "formula_version_organisation_formula_idx" ON "formula_version"("organisation", "formula");
ALTER TABLE "formula_version" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "formula_version_fence" ON "formula_version" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "formula_version" TO bakehouse_service;

CREATE TABLE "formula_retired" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "formula" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "formula_retired_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "formula_retired_organisation_book_idx" ON "formula_retired"("organisation", "book");
CREATE INDEX "formula_retired_organisation_formula_idx" ON "formula_retired"("organisation", "formula");
ALTER TABLE "formula_retired" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "formula_retired_fence" ON "formula_retired" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "formula_retired" TO bakehouse_service;

CREATE TABLE "plan_version" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "series" UUID NOT NULL,
  "number" BIGINT NOT NULL,
  "site" UUID,
  "content" JSONB NOT NULL,
  "since" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "plan_version_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "plan_version_organisation_book_idx" ON "plan_version"("organisation", "book");
CREATE INDEX "plan_version_organisation_series_idx" ON "plan_version"("organisation", "series");
ALTER TABLE "plan_version" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "plan_version_fence" ON "plan_version" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "plan_version" TO bakehouse_service;

CREATE TABLE "control_point" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "plan" UUID NOT NULL,
  "key" TEXT NOT NULL,
  "content" JSONB NOT NULL,
  CONSTRAINT "control_point_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "control_point_organisation_book_idx" ON "control_point"("organisation", "book");
CREATE INDEX "control_point_organisation_plan_idx" ON "control_point"("organisation", "plan");
ALTER TABLE "control_point" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "control_point_fence" ON "control_point" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "control_point" TO bakehouse_service;

CREATE TABLE "delivery" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "supplier" UUID,
  "note" TEXT,
  "unattended" BOOLEAN NOT NULL,
  "received_at" TIMESTAMPTZ(3) NOT NULL,
  "photo" TEXT,
  CONSTRAINT "delivery_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "delivery_organisation_book_idx" ON "delivery"("organisation", "book");
CREATE INDEX "delivery_organisation_supplier_idx" ON "delivery"("organisation", "supplier");
ALTER TABLE "delivery" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "delivery_fence" ON "delivery" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "delivery" TO bakehouse_service;

CREATE TABLE "lot" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "material" UUID NOT NULL,
  "specification" UUID,
  "name" TEXT NOT NULL,
  "type" TEXT NOT NULL,
  "code" TEXT,
  "code_state" TEXT NOT NULL,
  "delivery" UUID,
  "supplier" UUID,
  "mg" BIGINT,
  "pieces" BIGINT,
  "quantity_as_written" TEXT,
  "best_before" DATE,
  "use_by" DATE,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "lot_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "lot_organisation_book_idx" ON "lot"("organisation", "book");
CREATE INDEX "lot_organisation_delivery_idx" ON "lot"("organisation", "delivery");
CREATE INDEX "lot_organisation_material_idx" ON "lot"("organisation", "material");
CREATE INDEX "lot_organisation_code_idx" ON "lot"("organisation", "code");
ALTER TABLE "lot" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "lot_fence" ON "lot" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "lot" TO bakehouse_service;

CREATE TABLE "receipt_decision" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "lot" UUID NOT NULL,
  "decision" TEXT NOT NULL,
  "condition" TEXT,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "receipt_decision_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "receipt_decision_organisation_book_idx" ON "receipt_decision"("organisation", "book");
CREATE INDEX "receipt_decision_organisation_lot_idx" ON "receipt_decision"("organisation", "lot");
ALTER TABLE "receipt_decision" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "receipt_decision_fence" ON "receipt_decision" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "receipt_decision" TO bakehouse_service;

CREATE TABLE "lot_identified" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "lot" UUID NOT NULL,
  "code" TEXT,
  "same" UUID,
  "delivery" UUID,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "lot_identified_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "lot_identified_organisation_book_idx" ON "lot_identified"("organisation", "book");
CREATE INDEX "lot_identified_organisation_lot_idx" ON "lot_identified"("organisation", "lot");
CREATE INDEX "lot_identified_organisation_code_idx" ON "lot_identified"("organisation", "code");
CREATE INDEX "lot_identified_organisation_same_idx" ON "lot_identified"("organisation", "same");
ALTER TABLE "lot_identified" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "lot_identified_fence" ON "lot_identified" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "lot_identified" TO bakehouse_service;

CREATE TABLE "flow" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "source" UUID NOT NULL,
  "target" UUID NOT NULL,
  "mg" BIGINT,
  "pieces" BIGINT,
  "how" TEXT NOT NULL,
  "type" TEXT NOT NULL,
  "certain" BOOLEAN NOT NULL,
  "any_of" UUID,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "flow_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "flow_organisation_book_idx" ON "flow"("organisation", "book");
CREATE INDEX "flow_organisation_source_idx" ON "flow"("organisation", "source");
CREATE INDEX "flow_organisation_target_idx" ON "flow"("organisation", "target");
ALTER TABLE "flow" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "flow_fence" ON "flow" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "flow" TO bakehouse_service;

CREATE TABLE "in_use" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "station" UUID NOT NULL,
  "material" UUID NOT NULL,
  "lot" UUID NOT NULL,
  "name" TEXT NOT NULL,
  "specification" UUID,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "beside" BOOLEAN NOT NULL,
  CONSTRAINT "in_use_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "in_use_organisation_book_idx" ON "in_use"("organisation", "book");
CREATE INDEX "in_use_organisation_station_idx" ON "in_use"("organisation", "station");
CREATE INDEX "in_use_organisation_lot_idx" ON "in_use"("organisation", "lot");
ALTER TABLE "in_use" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "in_use_fence" ON "in_use" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "in_use" TO bakehouse_service;

CREATE TABLE "emptied" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "station" UUID NOT NULL,
  "lot" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "left_mg" BIGINT,
  CONSTRAINT "emptied_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "emptied_organisation_book_idx" ON "emptied"("organisation", "book");
CREATE INDEX "emptied_organisation_station_idx" ON "emptied"("organisation", "station");
CREATE INDEX "emptied_organisation_lot_idx" ON "emptied"("organisation", "lot");
ALTER TABLE "emptied" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "emptied_fence" ON "emptied" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "emptied" TO bakehouse_service;

CREATE TABLE "counted" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "lot" UUID NOT NULL,
  "place" UUID,
  "mg" BIGINT,
  "pieces" BIGINT,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "counted_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "counted_organisation_book_idx" ON "counted"("organisation", "book");
CREATE INDEX "counted_organisation_lot_idx" ON "counted"("organisation", "lot");
ALTER TABLE "counted" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "counted_fence" ON "counted" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "counted" TO bakehouse_service;

CREATE TABLE "make" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "formula" UUID NOT NULL,
  "formula_version" UUID NOT NULL,
  "formula_name" TEXT NOT NULL,
  "type" TEXT NOT NULL,
  "station" UUID,
  "plan" UUID,
  "planned_mg" BIGINT,
  "scale_ppm" BIGINT,
  "bake_day" DATE NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "done_by" UUID,
  CONSTRAINT "make_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "make_organisation_book_idx" ON "make"("organisation", "book");
CREATE INDEX "make_organisation_formula_idx" ON "make"("organisation", "formula");
CREATE INDEX "make_organisation_bake_day_idx" ON "make"("organisation", "bake_day");
ALTER TABLE "make" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "make_fence" ON "make" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "make" TO bakehouse_service;

CREATE TABLE "mixed" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "make" UUID NOT NULL,
  "minutes_slow" BIGINT,
  "minutes_fast" BIGINT,
  "water_milli" BIGINT,
  "flour_milli" BIGINT,
  "room_milli" BIGINT,
  "dough_milli" BIGINT,
  "friction_milli" BIGINT,
  "expected_friction_milli" BIGINT,
  "causes" JSONB NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "mixed_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "mixed_organisation_book_idx" ON "mixed"("organisation", "book");
CREATE INDEX "mixed_organisation_make_idx" ON "mixed"("organisation", "make");
ALTER TABLE "mixed" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "mixed_fence" ON "mixed" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "mixed" TO bakehouse_service;

CREATE TABLE "one_off" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "make" UUID NOT NULL,
  "change" TEXT,
  "material" UUID,
  "instead" UUID,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "one_off_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "one_off_organisation_book_idx" ON "one_off"("organisation", "book");
CREATE INDEX "one_off_organisation_make_idx" ON "one_off"("organisation", "make");
ALTER TABLE "one_off" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "one_off_fence" ON "one_off" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "one_off" TO bakehouse_service;

CREATE TABLE "make_ended" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "make" UUID NOT NULL,
  "mg" BIGINT,
  "how" TEXT NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "make_ended_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "make_ended_organisation_book_idx" ON "make_ended"("organisation", "book");
CREATE INDEX "make_ended_organisation_make_idx" ON "make_ended"("organisation", "make");
ALTER TABLE "make_ended" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "make_ended_fence" ON "make_ended" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "make_ended" TO bakehouse_service;

CREATE TABLE "divided" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "make" UUID NOT NULL,
  "in_mg" BIGINT,
  "runs_mg" BIGINT NOT NULL,
  "old_dough_mg" BIGINT NOT NULL,
  "scrap_mg" BIGINT NOT NULL,
  "difference_mg" BIGINT,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "divided_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "divided_organisation_book_idx" ON "divided"("organisation", "book");
CREATE INDEX "divided_organisation_make_idx" ON "divided"("organisation", "make");
ALTER TABLE "divided" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "divided_fence" ON "divided" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "divided" TO bakehouse_service;

CREATE TABLE "run" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "make" UUID NOT NULL,
  "product" UUID NOT NULL,
  "product_name" TEXT NOT NULL,
  "heads" BIGINT,
  "pieces" BIGINT NOT NULL,
  "scaling_mg" BIGINT NOT NULL,
  "life_days" BIGINT,
  "date_type" TEXT,
  "steps" JSONB NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "run_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "run_organisation_book_idx" ON "run"("organisation", "book");
CREATE INDEX "run_organisation_make_idx" ON "run"("organisation", "make");
CREATE INDEX "run_organisation_product_idx" ON "run"("organisation", "product");
ALTER TABLE "run" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "run_fence" ON "run" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "run" TO bakehouse_service;

CREATE TABLE "stage" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "subject" UUID NOT NULL,
  "place" UUID,
  "step" TEXT NOT NULL,
  "way" TEXT NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "stage_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "stage_organisation_book_idx" ON "stage"("organisation", "book");
CREATE INDEX "stage_organisation_subject_idx" ON "stage"("organisation", "subject");
ALTER TABLE "stage" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "stage_fence" ON "stage" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "stage" TO bakehouse_service;

CREATE TABLE "load" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "oven" UUID NOT NULL,
  "deck" UUID,
  "plan" UUID,
  "bake_day" DATE NOT NULL,
  "celsius" BIGINT,
  "minutes" BIGINT,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "done_by" UUID,
  CONSTRAINT "load_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "load_organisation_book_idx" ON "load"("organisation", "book");
CREATE INDEX "load_organisation_bake_day_idx" ON "load"("organisation", "bake_day");
ALTER TABLE "load" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "load_fence" ON "load" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "load" TO bakehouse_service;

CREATE TABLE "load_line" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "load" UUID NOT NULL,
  "run" UUID NOT NULL,
  "product" UUID NOT NULL,
  "product_name" TEXT NOT NULL,
  "pieces" BIGINT NOT NULL,
  "oven" UUID NOT NULL,
  "bake_day" DATE NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "load_line_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "load_line_organisation_book_idx" ON "load_line"("organisation", "book");
CREATE INDEX "load_line_organisation_load_idx" ON "load_line"("organisation", "load");
CREATE INDEX "load_line_organisation_run_idx" ON "load_line"("organisation", "run");
CREATE INDEX "load_line_organisation_bake_day_idx" ON "load_line"("organisation", "bake_day");
ALTER TABLE "load_line" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "load_line_fence" ON "load_line" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "load_line" TO bakehouse_service;

CREATE TABLE "load_step" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "load" UUID NOT NULL,
  "step" TEXT NOT NULL,
  "minutes" BIGINT,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "load_step_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "load_step_organisation_book_idx" ON "load_step"("organisation", "book");
CREATE INDEX "load_step_organisation_load_idx" ON "load_step"("organisation", "load");
ALTER TABLE "load_step" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "load_step_fence" ON "load_step" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "load_step" TO bakehouse_service;

CREATE TABLE "batch" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "run" UUID NOT NULL,
  "make" UUID NOT NULL,
  "formula" UUID NOT NULL,
  "plan" UUID,
  "steps" JSONB NOT NULL,
  "product" UUID NOT NULL,
  "product_name" TEXT NOT NULL,
  "code" TEXT NOT NULL,
  "baked_on" DATE NOT NULL,
  "best_before" DATE,
  "use_by" DATE,
  "pieces" BIGINT NOT NULL,
  "rejects" BIGINT NOT NULL,
  "loads" JSONB NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "batch_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "batch_organisation_book_idx" ON "batch"("organisation", "book");
CREATE INDEX "batch_organisation_run_idx" ON "batch"("organisation", "run");
CREATE INDEX "batch_organisation_make_idx" ON "batch"("organisation", "make");
CREATE INDEX "batch_organisation_product_idx" ON "batch"("organisation", "product");
CREATE INDEX "batch_organisation_code_idx" ON "batch"("organisation", "code");
CREATE INDEX "batch_organisation_baked_on_idx" ON "batch"("organisation", "baked_on");
ALTER TABLE "batch" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "batch_fence" ON "batch" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "batch" TO bakehouse_service;

CREATE TABLE "release" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "batch" UUID NOT NULL,
  "way" TEXT NOT NULL,
  "rule" BIGINT NOT NULL,
  "findings" JSONB NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "release_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "release_organisation_book_idx" ON "release"("organisation", "book");
CREATE INDEX "release_organisation_batch_idx" ON "release"("organisation", "batch");
ALTER TABLE "release" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "release_fence" ON "release" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "release" TO bakehouse_service;

CREATE TABLE "released_subject" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "batch" UUID NOT NULL,
  "subject" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "released_subject_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "released_subject_organisation_book_idx" ON "released_subject"("organisation", "book");
CREATE INDEX "released_subject_organisation_subject_idx" ON "released_subject"("organisation", "subject");
ALTER TABLE "released_subject" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "released_subject_fence" ON "released_subject" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "released_subject" TO bakehouse_service;

CREATE TABLE "hold" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "lot" UUID NOT NULL,
  "because" TEXT,
  "deviation" UUID,
  "recall" UUID,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "hold_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "hold_organisation_book_idx" ON "hold"("organisation", "book");
CREATE INDEX "hold_organisation_lot_idx" ON "hold"("organisation", "lot");
CREATE INDEX "hold_organisation_recall_idx" ON "hold"("organisation", "recall");
ALTER TABLE "hold" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "hold_fence" ON "hold" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "hold" TO bakehouse_service;

CREATE TABLE "hold_lifted" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "hold" UUID NOT NULL,
  "lot" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "hold_lifted_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "hold_lifted_organisation_book_idx" ON "hold_lifted"("organisation", "book");
CREATE INDEX "hold_lifted_organisation_hold_idx" ON "hold_lifted"("organisation", "hold");
CREATE INDEX "hold_lifted_organisation_lot_idx" ON "hold_lifted"("organisation", "lot");
ALTER TABLE "hold_lifted" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "hold_lifted_fence" ON "hold_lifted" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "hold_lifted" TO bakehouse_service;

CREATE TABLE "reading" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "subject_type" TEXT NOT NULL,
  "subject" UUID NOT NULL,
  "point" UUID,
  "point_key" TEXT,
  "measured" TEXT NOT NULL,
  "parameter" TEXT NOT NULL,
  "figure" TEXT,
  "unit" TEXT,
  "milli" BIGINT,
  "yes" BOOLEAN,
  "seconds" BIGINT,
  "verdict" TEXT NOT NULL,
  "class" TEXT,
  "judged_by" JSONB,
  "instrument" UUID,
  "half_width_milli" BIGINT NOT NULL,
  "rule" BIGINT NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "done_by" UUID,
  "corrected" BOOLEAN NOT NULL,
  CONSTRAINT "reading_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "reading_organisation_book_idx" ON "reading"("organisation", "book");
CREATE INDEX "reading_organisation_subject_idx" ON "reading"("organisation", "subject");
ALTER TABLE "reading" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "reading_fence" ON "reading" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "reading" TO bakehouse_service;

CREATE TABLE "reading_not_taken" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "subject_type" TEXT NOT NULL,
  "subject" UUID NOT NULL,
  "point" UUID NOT NULL,
  "point_key" TEXT NOT NULL,
  "answer" TEXT NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "reading_not_taken_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "reading_not_taken_organisation_book_idx" ON "reading_not_taken"("organisation", "book");
CREATE INDEX "reading_not_taken_organisation_subject_idx" ON "reading_not_taken"("organisation", "subject");
ALTER TABLE "reading_not_taken" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "reading_not_taken_fence" ON "reading_not_taken" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "reading_not_taken" TO bakehouse_service;

CREATE TABLE "deviation" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "subject_type" TEXT NOT NULL,
  "subject" UUID NOT NULL,
  "type" TEXT NOT NULL,
  "class" TEXT NOT NULL,
  "summary" TEXT,
  "holds" BOOLEAN NOT NULL,
  "point" UUID,
  "done_by" UUID,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "deviation_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "deviation_organisation_book_idx" ON "deviation"("organisation", "book");
CREATE INDEX "deviation_organisation_subject_idx" ON "deviation"("organisation", "subject");
ALTER TABLE "deviation" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "deviation_fence" ON "deviation" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "deviation" TO bakehouse_service;

CREATE TABLE "corrective_action" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "deviation" UUID NOT NULL,
  "subject" UUID NOT NULL,
  "action" TEXT,
  "type" TEXT NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "done_by" UUID,
  CONSTRAINT "corrective_action_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "corrective_action_organisation_book_idx" ON "corrective_action"("organisation", "book");
CREATE INDEX "corrective_action_organisation_deviation_idx" ON "corrective_action"("organisation", "deviation");
CREATE INDEX "corrective_action_organisation_subject_idx" ON "corrective_action"("organisation", "subject");
ALTER TABLE "corrective_action" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "corrective_action_fence" ON "corrective_action" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "corrective_action" TO bakehouse_service;

CREATE TABLE "clean_down" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "place" UUID NOT NULL,
  "type" TEXT NOT NULL,
  "chemical" TEXT,
  "dilution" TEXT,
  "contact_minutes" BIGINT,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "done_by" UUID,
  CONSTRAINT "clean_down_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "clean_down_organisation_book_idx" ON "clean_down"("organisation", "book");
CREATE INDEX "clean_down_organisation_place_idx" ON "clean_down"("organisation", "place");
ALTER TABLE "clean_down" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "clean_down_fence" ON "clean_down" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "clean_down" TO bakehouse_service;

CREATE TABLE "disposition" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "deviation" UUID NOT NULL,
  "subject" UUID NOT NULL,
  "disposition" TEXT NOT NULL,
  "pieces" BIGINT,
  "mg" BIGINT,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "disposition_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "disposition_organisation_book_idx" ON "disposition"("organisation", "book");
CREATE INDEX "disposition_organisation_deviation_idx" ON "disposition"("organisation", "deviation");
CREATE INDEX "disposition_organisation_subject_idx" ON "disposition"("organisation", "subject");
ALTER TABLE "disposition" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "disposition_fence" ON "disposition" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "disposition" TO bakehouse_service;

CREATE TABLE "deviation_closed" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "deviation" UUID NOT NULL,
  "subject" UUID NOT NULL,
  "self_review" BOOLEAN NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "closed_by" UUID NOT NULL,
  CONSTRAINT "deviation_closed_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "deviation_closed_organisation_book_idx" ON "deviation_closed"("organisation", "book");
CREATE INDEX "deviation_closed_organisation_deviation_idx" ON "deviation_closed"("organisation", "deviation");
CREATE INDEX "deviation_closed_organisation_subject_idx" ON "deviation_closed"("organisation", "subject");
ALTER TABLE "deviation_closed" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "deviation_closed_fence" ON "deviation_closed" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "deviation_closed" TO bakehouse_service;

CREATE TABLE "departure" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "lot" UUID NOT NULL,
  "channel" TEXT NOT NULL,
  "customer" UUID,
  "trip" UUID NOT NULL,
  "mg" BIGINT,
  "pieces" BIGINT,
  "how" TEXT NOT NULL,
  "certain" BOOLEAN NOT NULL,
  "any_of" UUID,
  "unattended" BOOLEAN NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "until" TIMESTAMPTZ(3),
  CONSTRAINT "departure_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "departure_organisation_book_idx" ON "departure"("organisation", "book");
CREATE INDEX "departure_organisation_lot_idx" ON "departure"("organisation", "lot");
CREATE INDEX "departure_organisation_trip_idx" ON "departure"("organisation", "trip");
CREATE INDEX "departure_organisation_customer_idx" ON "departure"("organisation", "customer");
ALTER TABLE "departure" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "departure_fence" ON "departure" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "departure" TO bakehouse_service;

CREATE TABLE "returned" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "lot" UUID NOT NULL,
  "departure" UUID,
  "customer" UUID,
  "pieces" BIGINT,
  "mg" BIGINT,
  "how" TEXT NOT NULL,
  "disposition" TEXT NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "returned_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "returned_organisation_book_idx" ON "returned"("organisation", "book");
CREATE INDEX "returned_organisation_lot_idx" ON "returned"("organisation", "lot");
CREATE INDEX "returned_organisation_departure_idx" ON "returned"("organisation", "departure");
ALTER TABLE "returned" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "returned_fence" ON "returned" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "returned" TO bakehouse_service;

CREATE TABLE "on_counter" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "lot" UUID NOT NULL,
  "way" TEXT NOT NULL,
  "pieces" BIGINT,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "on_counter_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "on_counter_organisation_book_idx" ON "on_counter"("organisation", "book");
CREATE INDEX "on_counter_organisation_lot_idx" ON "on_counter"("organisation", "lot");
ALTER TABLE "on_counter" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "on_counter_fence" ON "on_counter" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "on_counter" TO bakehouse_service;

CREATE TABLE "recall_case" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "suspect" JSONB NOT NULL,
  "hazard" TEXT NOT NULL,
  "hazard_name" TEXT NOT NULL,
  "practice" BOOLEAN NOT NULL,
  "supplier_said" TEXT,
  "frozen_at" JSONB NOT NULL,
  "scope_hash" TEXT NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "recall_case_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "recall_case_organisation_book_idx" ON "recall_case"("organisation", "book");
ALTER TABLE "recall_case" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "recall_case_fence" ON "recall_case" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "recall_case" TO bakehouse_service;

CREATE TABLE "recall_scope_lot" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "recall" UUID NOT NULL,
  "lot" UUID NOT NULL,
  "certain" BOOLEAN NOT NULL,
  "min_ppt" BIGINT,
  "max_ppt" BIGINT,
  CONSTRAINT "recall_scope_lot_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "recall_scope_lot_organisation_book_idx" ON "recall_scope_lot"("organisation", "book");
CREATE INDEX "recall_scope_lot_organisation_recall_idx" ON "recall_scope_lot"("organisation", "recall");
CREATE INDEX "recall_scope_lot_organisation_lot_idx" ON "recall_scope_lot"("organisation", "lot");
ALTER TABLE "recall_scope_lot" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "recall_scope_lot_fence" ON "recall_scope_lot" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "recall_scope_lot" TO bakehouse_service;

CREATE TABLE "recall_contact" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "recall" UUID NOT NULL,
  "party" UUID NOT NULL,
  "answer" TEXT NOT NULL,
  "pieces_held" BIGINT,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "done_by" UUID,
  CONSTRAINT "recall_contact_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "recall_contact_organisation_book_idx" ON "recall_contact"("organisation", "book");
CREATE INDEX "recall_contact_organisation_recall_idx" ON "recall_contact"("organisation", "recall");
CREATE INDEX "recall_contact_organisation_party_idx" ON "recall_contact"("organisation", "party");
ALTER TABLE "recall_contact" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "recall_contact_fence" ON "recall_contact" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "recall_contact" TO bakehouse_service;

CREATE TABLE "recall_closed" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "recall" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "recall_closed_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "recall_closed_organisation_book_idx" ON "recall_closed"("organisation", "book");
CREATE INDEX "recall_closed_organisation_recall_idx" ON "recall_closed"("organisation", "recall");
ALTER TABLE "recall_closed" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "recall_closed_fence" ON "recall_closed" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "recall_closed" TO bakehouse_service;

CREATE TABLE "access_given" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "person" UUID NOT NULL,
  "sites" JSONB NOT NULL,
  "from" DATE NOT NULL,
  "until" DATE,
  "expires" TIMESTAMPTZ(3) NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "access_given_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "access_given_organisation_book_idx" ON "access_given"("organisation", "book");
CREATE INDEX "access_given_organisation_person_idx" ON "access_given"("organisation", "person");
ALTER TABLE "access_given" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "access_given_fence" ON "access_given" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "access_given" TO bakehouse_service;

CREATE TABLE "access_ended" (
  "organisation" UUID NOT NULL,
  "book" UUID NOT NULL,
  "id" UUID NOT NULL,
  "entry" UUID NOT NULL,
  "seq" BIGINT NOT NULL,
  "access" UUID NOT NULL,
  "person" UUID NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  CONSTRAINT "access_ended_pkey" PRIMARY KEY ("organisation", "id")
);
CREATE INDEX "access_ended_organisation_book_idx" ON "access_ended"("organisation", "book");
CREATE INDEX "access_ended_organisation_access_idx" ON "access_ended"("organisation", "access");
CREATE INDEX "access_ended_organisation_person_idx" ON "access_ended"("organisation", "person");
ALTER TABLE "access_ended" ENABLE ROW LEVEL SECURITY;
CREATE POLICY "access_ended_fence" ON "access_ended" USING ("organisation" = current_organisation()) WITH CHECK ("organisation" = current_organisation());
GRANT SELECT, INSERT, UPDATE, DELETE ON "access_ended" TO bakehouse_service;
