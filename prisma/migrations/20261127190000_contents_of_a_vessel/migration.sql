-- What was in a vessel at a moment is found by the vessel and the time, whatever material it held.
CREATE INDEX "in_use_organisation_station_at_idx" ON "in_use"("organisation", "station", "at");
