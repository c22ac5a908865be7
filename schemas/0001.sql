-- The first layout of the record. Days are whole days since 1970-01-01, amounts are hundredths of the meter's unit,
-- measures are millionths of theirs, `entered` is milliseconds since 1970 (UTC). Nothing is ever updated or deleted but
-- the tallies of `book` and `machine`, which tell when a row has gone missing. `from_copy`: the command was given
-- elsewhere, and came with another copy of the book.

CREATE TABLE book (
  one INTEGER PRIMARY KEY CHECK (one = 1),
  machines INTEGER NOT NULL CHECK (machines >= 0),
  facts INTEGER NOT NULL CHECK (facts >= 0),
  checksums INTEGER NOT NULL,
  newest INTEGER CHECK (newest BETWEEN -25567 AND 84005),
  seal INTEGER NOT NULL
) STRICT;

CREATE TABLE machine (
  key INTEGER PRIMARY KEY CHECK (key > 0),
  name TEXT NOT NULL UNIQUE CHECK (length(name) <= 10000),
  facts INTEGER NOT NULL CHECK (facts >= 0),
  checksums INTEGER NOT NULL,
  newest INTEGER CHECK (newest BETWEEN -25567 AND 84005),
  seal INTEGER NOT NULL
) STRICT;

CREATE TABLE task (
  key INTEGER PRIMARY KEY CHECK (key > 0),
  name TEXT NOT NULL UNIQUE CHECK (length(name) <= 10000)
) STRICT;

CREATE TABLE command (
  key INTEGER PRIMARY KEY CHECK (key > 0),
  id BLOB NOT NULL UNIQUE CHECK (length(id) = 16),
  entered INTEGER NOT NULL CHECK (entered BETWEEN 0 AND 7258118399999),
  entered_by TEXT NOT NULL CHECK (length(entered_by) <= 10000),
  origin TEXT NOT NULL CHECK (length(origin) <= 10000),
  from_copy INTEGER NOT NULL CHECK (from_copy IN (0, 1))
) STRICT;

CREATE TABLE fact (
  command INTEGER NOT NULL REFERENCES command (key),
  n INTEGER NOT NULL CHECK (n BETWEEN 1 AND 2147483647),
  kind INTEGER NOT NULL CHECK (kind BETWEEN 1 AND 12),
  machine INTEGER NOT NULL REFERENCES machine (key),
  task INTEGER NOT NULL REFERENCES task (key),
  first_day INTEGER CHECK (first_day BETWEEN -25567 AND 84005),
  last_day INTEGER CHECK (last_day BETWEEN first_day AND 84005),
  meter TEXT NOT NULL CHECK (meter = '' OR length(meter) <= 10000),
  at INTEGER CHECK (at BETWEEN 0 AND 100000000000),
  position TEXT NOT NULL CHECK (position = '' OR length(position) <= 10000),
  name TEXT NOT NULL CHECK (name = '' OR length(name) <= 10000),
  value INTEGER CHECK (value BETWEEN -1000000000000000 AND 1000000000000000),
  unit TEXT NOT NULL CHECK (unit = '' OR length(unit) <= 10000),
  last INTEGER CHECK (last BETWEEN 0 AND 100000000000),
  first INTEGER CHECK (first BETWEEN 0 AND 100000000000),
  until INTEGER CHECK (until BETWEEN -25567 AND 84005),
  part TEXT NOT NULL CHECK (part = '' OR length(part) <= 10000),
  found INTEGER CHECK (found BETWEEN 1 AND 3),
  by TEXT NOT NULL CHECK (by = '' OR length(by) <= 10000),
  note TEXT NOT NULL CHECK (note = '' OR length(note) <= 10000),
  sure INTEGER NOT NULL CHECK (sure IN (0, 1)),
  history INTEGER NOT NULL CHECK (history IN (0, 1)),
  strikes BLOB CHECK (length(strikes) = 16),
  strikes_n INTEGER CHECK (strikes_n BETWEEN 1 AND 2147483647),
  checksum INTEGER NOT NULL,
  PRIMARY KEY (command, n),
  CHECK ((first_day IS NULL) = (last_day IS NULL)),
  CHECK ((strikes IS NULL) = (strikes_n IS NULL))
) STRICT, WITHOUT ROWID;

CREATE INDEX fact_of_machine ON fact (machine, command, n);
