"""The tables of people, their devices, their failed tries, and the entries held for a lead."""

PEOPLE = """
CREATE TABLE people (
  key TEXT PRIMARY KEY, name TEXT NOT NULL UNIQUE,
  role TEXT NOT NULL CHECK (role IN ('tech', 'lead', 'reader')),
  secret TEXT NOT NULL, made TEXT NOT NULL, gone TEXT
) STRICT, WITHOUT ROWID;
CREATE TABLE devices (
  device TEXT PRIMARY KEY, token TEXT NOT NULL UNIQUE CHECK (length(token) = 64), browser TEXT NOT NULL,
  made TEXT NOT NULL, seen TEXT NOT NULL, current TEXT NOT NULL REFERENCES people (key),
  ended TEXT, ended_by TEXT, lost INTEGER NOT NULL DEFAULT 0
) STRICT, WITHOUT ROWID;
CREATE TABLE signed_in (
  device TEXT NOT NULL REFERENCES devices (device), person TEXT NOT NULL REFERENCES people (key),
  pin_at TEXT NOT NULL, out_at TEXT, PRIMARY KEY (device, person)
) STRICT, WITHOUT ROWID;
CREATE TABLE tries (
  about TEXT PRIMARY KEY, person TEXT NOT NULL, failed INTEGER NOT NULL, last TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE first_lead (
  one INTEGER PRIMARY KEY CHECK (one = 1), code TEXT NOT NULL, made TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE held (
  id TEXT PRIMARY KEY, job TEXT NOT NULL, device TEXT NOT NULL, person TEXT NOT NULL, why TEXT NOT NULL,
  received TEXT NOT NULL, raw TEXT NOT NULL, settled TEXT, settled_by TEXT, outcome TEXT, reason TEXT
) STRICT, WITHOUT ROWID;
CREATE TABLE people_deeds (
  number INTEGER PRIMARY KEY, at TEXT NOT NULL, by TEXT NOT NULL, act TEXT NOT NULL, about TEXT NOT NULL
) STRICT;
CREATE TRIGGER people_deeds_never_change BEFORE UPDATE ON people_deeds BEGIN
  SELECT RAISE(ABORT, 'what was done to people and devices stays written');
END;
CREATE TRIGGER people_deeds_never_go BEFORE DELETE ON people_deeds BEGIN
  SELECT RAISE(ABORT, 'what was done to people and devices stays written');
END;
"""
