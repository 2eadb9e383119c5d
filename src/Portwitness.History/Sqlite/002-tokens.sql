CREATE TABLE tokens (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  role TEXT NOT NULL,
  secret_sha256 TEXT NOT NULL UNIQUE,
  created_us INTEGER NOT NULL,
  expires_us INTEGER,
  revoked_us INTEGER
);
