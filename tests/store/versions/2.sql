-- A database as version 2 of the tables left it, written out by the program of that day.
BEGIN TRANSACTION;
CREATE TABLE counters (
  name TEXT PRIMARY KEY, value INTEGER NOT NULL CHECK (value >= 0)
) STRICT, WITHOUT ROWID;
INSERT INTO "counters" VALUES('T',24);
CREATE TABLE devices (
  device TEXT PRIMARY KEY, token TEXT NOT NULL UNIQUE CHECK (length(token) = 64), browser TEXT NOT NULL,
  made TEXT NOT NULL, seen TEXT NOT NULL, current TEXT NOT NULL REFERENCES people (key),
  ended TEXT, ended_by TEXT, lost INTEGER NOT NULL DEFAULT 0
) STRICT, WITHOUT ROWID;
CREATE TABLE entries (
  job TEXT NOT NULL,
  position INTEGER NOT NULL CHECK (position >= 1),
  id TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  device TEXT NOT NULL,
  seq INTEGER NOT NULL CHECK (seq >= 1),
  received TEXT NOT NULL,
  prev TEXT NOT NULL CHECK (length(prev) = 64),
  hash TEXT NOT NULL CHECK (length(hash) = 64),
  raw TEXT NOT NULL,
  PRIMARY KEY (job, position)
) STRICT, WITHOUT ROWID;
INSERT INTO "entries" VALUES('launch 1',1,'01960000-0000-7000-8000-000000000001','job-opened','phone',1,'2026-03-09T08:00:01.000Z','0000000000000000000000000000000000000000000000000000000000000000','91fca14ad1f3c57fd132f890d1bf5bfe8a199b792dc72ee2d11ee21d9c78cc23','{"at":"2026-03-09T08:00:00+00:00","by":"Ana","device":"phone","id":"01960000-0000-7000-8000-000000000001","job":"launch 1","kind":"job-opened","level":2,"machine":"Harbour launch","seq":1,"title":"Pump"}');
INSERT INTO "entries" VALUES('launch 1',2,'01960000-0000-7000-8000-000000000002','signed-on','phone',2,'2026-03-09T08:00:01.000Z','91fca14ad1f3c57fd132f890d1bf5bfe8a199b792dc72ee2d11ee21d9c78cc23','820cae44c0dbff76bf2ff4dbc9705eade0ef7ccf73374ab5d13633c1816f7062','{"at":"2026-03-09T08:00:00+00:00","by":"Ana","device":"phone","id":"01960000-0000-7000-8000-000000000002","job":"launch 1","kind":"signed-on","seq":2}');
INSERT INTO "entries" VALUES('launch 1',3,'01960000-0000-7000-8000-000000000003','set-described','phone',3,'2026-03-09T08:00:01.000Z','820cae44c0dbff76bf2ff4dbc9705eade0ef7ccf73374ab5d13633c1816f7062','5d5ace776ba7aef5a20eac41cea89ea53da690f87b364bbb4e991039c5576693','{"at":"2026-03-09T08:00:00+00:00","by":"Ana","device":"phone","id":"01960000-0000-7000-8000-000000000003","job":"launch 1","kind":"set-described","n":6,"seq":3,"set":"cover bolts","type":"M6x1x16"}');
INSERT INTO "entries" VALUES('launch 1',4,'01960000-0000-7000-8000-000000000004','label-bound','phone',4,'2026-03-09T08:00:01.000Z','5d5ace776ba7aef5a20eac41cea89ea53da690f87b364bbb4e991039c5576693','047dc509b83cb9ac859cc5239feef2d68ae9442a1d3a75321fc8d21b39618fd4','{"at":"2026-03-09T08:00:00+00:00","by":"Ana","container":"T0042E","container_kind":"tray","device":"phone","id":"01960000-0000-7000-8000-000000000004","job":"launch 1","kind":"label-bound","label":"T0042E","seq":4}');
INSERT INTO "entries" VALUES('launch 1',5,'01960000-0000-7000-8000-000000000005','fasteners-removed','phone',5,'2026-03-09T08:00:01.000Z','047dc509b83cb9ac859cc5239feef2d68ae9442a1d3a75321fc8d21b39618fd4','b184bfe6f423c23bb3361f51ef89305fba0508dc1ab720ee1c53dbaa45cbce17','{"at":"2026-03-09T08:00:00+00:00","by":"Ana","device":"phone","id":"01960000-0000-7000-8000-000000000005","job":"launch 1","kind":"fasteners-removed","n":6,"seq":5,"set":"cover bolts","to":"T0042E"}');
INSERT INTO "entries" VALUES('launch 1',6,'01960000-0000-7000-8000-000000000006','photo-added','phone',6,'2026-03-09T08:00:01.000Z','b184bfe6f423c23bb3361f51ef89305fba0508dc1ab720ee1c53dbaa45cbce17','d5efb7daf33773a20d676b9fadef148e738fed37d2e7ee4111463c09ac3f6239','{"at":"2026-03-09T08:00:00+00:00","by":"Ana","container":"T0042E","device":"phone","id":"01960000-0000-7000-8000-000000000006","job":"launch 1","kind":"photo-added","photo":"2f51be5f00235db0d065b28ff9d99b1d5fa0fe6d2f19192a448992c0051ca974","seq":6,"sha256":"2f51be5f00235db0d065b28ff9d99b1d5fa0fe6d2f19192a448992c0051ca974","shape":"tray"}');
INSERT INTO "entries" VALUES('launch 2',1,'01960000-0000-7000-8000-000000000007','job-opened','phone',7,'2026-03-09T08:00:02.000Z','0000000000000000000000000000000000000000000000000000000000000000','1497e363529e15098c0fef4e2b61b7a45780430d9a1a810508da1abbff6dd0d0','{"at":"2026-03-09T08:00:00+00:00","by":"Ana","device":"phone","id":"01960000-0000-7000-8000-000000000007","job":"launch 2","kind":"job-opened","level":1,"machine":"Work boat","seq":7,"title":"Look"}');
CREATE TABLE first_lead (
  one INTEGER PRIMARY KEY CHECK (one = 1), code TEXT NOT NULL, made TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE held (
  id TEXT PRIMARY KEY, job TEXT NOT NULL, device TEXT NOT NULL, person TEXT NOT NULL, why TEXT NOT NULL,
  received TEXT NOT NULL, raw TEXT NOT NULL, settled TEXT, settled_by TEXT, outcome TEXT, reason TEXT
) STRICT, WITHOUT ROWID;
CREATE TABLE jobs (job TEXT PRIMARY KEY, machine TEXT NOT NULL, title TEXT NOT NULL,
        level INTEGER NOT NULL, state TEXT NOT NULL, opened TEXT, last TEXT NOT NULL,
        entries INTEGER NOT NULL) STRICT;
INSERT INTO "jobs" VALUES('launch 1','Harbour launch','Pump',2,'open','2026-03-09T08:00:00+00:00','2026-03-09T08:00:01.000Z',6);
INSERT INTO "jobs" VALUES('launch 2','Work boat','Look',1,'open','2026-03-09T08:00:00+00:00','2026-03-09T08:00:02.000Z',1);
CREATE TABLE labels (label TEXT NOT NULL, text TEXT, job TEXT NOT NULL,
        container TEXT NOT NULL, container_kind TEXT NOT NULL, step TEXT, retired INTEGER NOT NULL,
        entry TEXT NOT NULL REFERENCES entries (id), PRIMARY KEY (label, job, container)) STRICT;
INSERT INTO "labels" VALUES('T0042E',NULL,'launch 1','T0042E','tray',NULL,0,'01960000-0000-7000-8000-000000000004');
CREATE TABLE people (
  key TEXT PRIMARY KEY, name TEXT NOT NULL UNIQUE,
  role TEXT NOT NULL CHECK (role IN ('tech', 'lead', 'reader')),
  secret TEXT NOT NULL, made TEXT NOT NULL, gone TEXT
) STRICT, WITHOUT ROWID;
CREATE TABLE people_deeds (
  number INTEGER PRIMARY KEY, at TEXT NOT NULL, by TEXT NOT NULL, act TEXT NOT NULL, about TEXT NOT NULL
) STRICT;
CREATE TABLE photos (sha256 TEXT NOT NULL, job TEXT NOT NULL, photo TEXT NOT NULL,
        container TEXT, step TEXT, received TEXT NOT NULL, entry TEXT NOT NULL REFERENCES entries (id),
        PRIMARY KEY (sha256, job)) STRICT;
INSERT INTO "photos" VALUES('2f51be5f00235db0d065b28ff9d99b1d5fa0fe6d2f19192a448992c0051ca974','launch 1','2f51be5f00235db0d065b28ff9d99b1d5fa0fe6d2f19192a448992c0051ca974','T0042E',NULL,'2026-03-09T08:00:01.000Z','01960000-0000-7000-8000-000000000006');
CREATE TABLE signed_in (
  device TEXT NOT NULL REFERENCES devices (device), person TEXT NOT NULL REFERENCES people (key),
  pin_at TEXT NOT NULL, out_at TEXT, PRIMARY KEY (device, person)
) STRICT, WITHOUT ROWID;
CREATE TABLE tries (
  about TEXT PRIMARY KEY, person TEXT NOT NULL, failed INTEGER NOT NULL, last TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX entries_of_a_kind ON entries (job, kind);
CREATE INDEX entries_of_a_device ON entries (device, seq);
CREATE TRIGGER entries_never_change BEFORE UPDATE ON entries BEGIN
  SELECT RAISE(ABORT, 'an entry is never changed; void or replace it with another entry');
END;
CREATE TRIGGER entries_never_go BEFORE DELETE ON entries BEGIN
  SELECT RAISE(ABORT, 'an entry is never deleted; void it with another entry');
END;
CREATE TRIGGER entries_follow_one_another BEFORE INSERT ON entries
WHEN EXISTS (SELECT 1 FROM entries WHERE id = NEW.id)
  OR NEW.position IS NOT (SELECT coalesce(max(position), 0) + 1 FROM entries WHERE job = NEW.job)
  OR NEW.prev IS NOT coalesce(
    (SELECT hash FROM entries WHERE job = NEW.job ORDER BY position DESC LIMIT 1), '0000000000000000000000000000000000000000000000000000000000000000')
BEGIN
  SELECT RAISE(ABORT, 'an entry goes to the end of its job and follows the one before it');
END;
CREATE INDEX labels_by_text ON labels (text) WHERE text IS NOT NULL;
CREATE INDEX photos_by_job ON photos (job);
CREATE TRIGGER people_deeds_never_change BEFORE UPDATE ON people_deeds BEGIN
  SELECT RAISE(ABORT, 'what was done to people and devices stays written');
END;
CREATE TRIGGER people_deeds_never_go BEFORE DELETE ON people_deeds BEGIN
  SELECT RAISE(ABORT, 'what was done to people and devices stays written');
END;
PRAGMA user_version = 2;
COMMIT;
