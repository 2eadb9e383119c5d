-- Names as searches compare them, which databases do not fold alike. NULL until a program of this version has folded it.
ALTER TABLE reports ADD COLUMN product_folded TEXT;
CREATE INDEX reports_unfolded ON reports (id) WHERE product_folded IS NULL;
