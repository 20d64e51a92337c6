CREATE INDEX "role_given_organisation_role_idx" ON "role_given"("organisation", "role");
