"""The tables of signed releases and their papers, put once, never changed; and of summaries."""

RELEASES = """
CREATE TABLE releases (
  job TEXT NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 1),
  record TEXT NOT NULL,
  document TEXT NOT NULL,
  signature TEXT NOT NULL CHECK (length(signature) = 128),
  papers TEXT NOT NULL,
  papers_signature TEXT NOT NULL CHECK (length(papers_signature) = 128),
  PRIMARY KEY (job, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE release_papers (
  sha256 TEXT PRIMARY KEY CHECK (length(sha256) = 64), data BLOB NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TRIGGER releases_never_change BEFORE UPDATE ON releases BEGIN
  SELECT RAISE(ABORT, 'a signed release is never changed; withdraw it with an entry');
END;
CREATE TRIGGER releases_never_go BEFORE DELETE ON releases BEGIN
  SELECT RAISE(ABORT, 'a signed release is never deleted; withdraw it with an entry');
END;
"""
SUMMARIES = """
CREATE TABLE summaries (
  job TEXT PRIMARY KEY, head TEXT NOT NULL, made TEXT NOT NULL, text TEXT NOT NULL
) STRICT, WITHOUT ROWID
"""
