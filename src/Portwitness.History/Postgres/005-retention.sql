-- For deleting what is old.
CREATE INDEX submissions_by_report ON submissions (report_id);
CREATE INDEX reports_by_last_seen ON reports (last_seen_us);
