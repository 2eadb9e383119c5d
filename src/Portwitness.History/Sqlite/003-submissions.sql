CREATE TABLE submissions (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  key TEXT NOT NULL UNIQUE,
  state TEXT NOT NULL,
  name TEXT NOT NULL,
  tries INTEGER NOT NULL,
  problem TEXT NOT NULL,
  report_id INTEGER NOT NULL,
  created_us INTEGER NOT NULL,
  changed_us INTEGER NOT NULL,
  request BLOB NOT NULL
);
CREATE INDEX submissions_by_state ON submissions (state, number);
CREATE TABLE uploads (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  sha256 TEXT NOT NULL,
  client TEXT NOT NULL,
  bytes INTEGER NOT NULL,
  received INTEGER NOT NULL,
  changed_us INTEGER NOT NULL,
  UNIQUE (sha256, client)
);
CREATE TABLE upload_pieces (
  upload_id INTEGER NOT NULL REFERENCES uploads (id) ON DELETE CASCADE,
  start INTEGER NOT NULL,
  data BLOB NOT NULL,
  PRIMARY KEY (upload_id, start)
);
CREATE TABLE submission_uploads (
  submission_number INTEGER NOT NULL REFERENCES submissions (number) ON DELETE CASCADE,
  sha256 TEXT NOT NULL,
  PRIMARY KEY (sha256, submission_number)
);
