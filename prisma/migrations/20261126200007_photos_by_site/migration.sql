ALTER TABLE "photo" DROP CONSTRAINT "photo_pkey", ADD CONSTRAINT "photo_pkey" PRIMARY KEY ("organisation", "book", "id");
