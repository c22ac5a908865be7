-- What is worked out of the facts of a machine and kept beside them, so that a list need not read them all. It is
-- written by the transaction that adds facts, never changed, and may be deleted at any time: what is missing is worked
-- out of the facts again. `state` says by itself of which facts it is, and whether it is whole.

CREATE TABLE derived (
  machine INTEGER PRIMARY KEY REFERENCES machine (key),
  state BLOB NOT NULL
) STRICT;

-- The same of machines that teach each other, all of one schedule: what is worked out of their states in `derived`, under
-- the name of the schedule.

CREATE TABLE derived_together (
  name TEXT NOT NULL PRIMARY KEY,
  state BLOB NOT NULL
) STRICT;
