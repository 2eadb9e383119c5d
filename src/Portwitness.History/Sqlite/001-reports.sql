CREATE TABLE reports (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  input_key TEXT NOT NULL UNIQUE,
  product TEXT NOT NULL,
  sample TEXT NOT NULL,
  firmware TEXT NOT NULL,
  verdict TEXT NOT NULL,
  tool_version TEXT NOT NULL,
  violations INTEGER NOT NULL,
  mismatches INTEGER NOT NULL,
  cautions INTEGER NOT NULL,
  notes INTEGER NOT NULL,
  first_seen_us INTEGER NOT NULL,
  last_seen_us INTEGER NOT NULL,
  report BLOB NOT NULL
);
CREATE TABLE report_rules (
  report_id INTEGER NOT NULL REFERENCES reports (id) ON DELETE CASCADE,
  rule TEXT NOT NULL,
  findings INTEGER NOT NULL,
  PRIMARY KEY (report_id, rule)
);
CREATE INDEX reports_by_product ON reports (product, sample, firmware);
CREATE INDEX reports_by_time ON reports (first_seen_us);
CREATE INDEX report_rules_by_rule ON report_rules (rule, report_id);
