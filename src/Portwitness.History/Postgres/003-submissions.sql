CREATE TABLE submissions (
  number BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  key TEXT NOT NULL UNIQUE,
  state TEXT NOT NULL,
  name TEXT NOT NULL,
  tries INTEGER NOT NULL,
  problem TEXT NOT NULL,
  report_id BIGINT NOT NULL,
  created_us BIGINT NOT NULL,
  changed_us BIGINT NOT NULL,
  request BYTEA NOT NULL
);
CREATE INDEX submissions_by_state ON submissions (state, number);
CREATE TABLE uploads (
  id BIGINT GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  sha256 TEXT NOT NULL,
  client TEXT NOT NULL,
  bytes BIGINT NOT NULL,
  received BIGINT NOT NULL,
  changed_us BIGINT NOT NULL,
  UNIQUE (sha256, client)
);
CREATE TABLE upload_pieces (
  upload_id BIGINT NOT NULL REFERENCES uploads (id) ON DELETE CASCADE,
  start BIGINT NOT NULL,
  data BYTEA NOT NULL,
  PRIMARY KEY (upload_id, start)
);
CREATE TABLE submission_uploads (
  submission_number BIGINT NOT NULL REFERENCES submissions (number) ON DELETE CASCADE,
  sha256 TEXT NOT NULL,
  PRIMARY KEY (sha256, submission_number)
);
