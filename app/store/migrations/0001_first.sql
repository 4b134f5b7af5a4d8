-- The first schema. A migration is never edited once it has been released:
-- changes go into the next number.
--
-- Every row has:
--   id          random, 128 bits, made on this device, stable for ever
--   device      the device that wrote it
--   at          UTC time of writing, YYYY-MM-DDTHH:MM:SS.ffffffZ
--   day         local date at that time
--   utc_offset  local offset at that time, as +02:00
--   demo        1 for rows of the invented demo household
-- Every row about one learner has his or her id in the column "learner":
-- erasing a learner goes by that column, in later tables too.
--
-- Tables of events also have seq, the order of writing (a Lamport clock, which
-- does not turn back when the computer's clock does). They are only added to:
-- triggers refuse any change, and refuse removal unless a row stands in
-- "erasing", which only whole erasure puts there and takes away again.

CREATE TABLE device (
  id TEXT PRIMARY KEY, at TEXT NOT NULL, seq INTEGER NOT NULL
) STRICT;

CREATE TABLE clock (
  one INTEGER PRIMARY KEY CHECK (one = 1), n INTEGER NOT NULL
) STRICT;
INSERT INTO clock VALUES (1, 0);

CREATE TABLE erasing (what TEXT PRIMARY KEY) STRICT;

CREATE TABLE setting (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  name TEXT NOT NULL UNIQUE, value TEXT NOT NULL
) STRICT;

CREATE TABLE learner (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  nickname TEXT NOT NULL, mode TEXT NOT NULL, look TEXT NOT NULL,
  away INTEGER NOT NULL CHECK (away IN (0, 1))
) STRICT;

CREATE TABLE story (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  title TEXT NOT NULL, language TEXT NOT NULL, text TEXT NOT NULL,
  text_hash TEXT NOT NULL UNIQUE, shelf_id TEXT NOT NULL, source TEXT NOT NULL,
  licence TEXT NOT NULL, invented INTEGER NOT NULL CHECK (invented IN (0, 1)),
  file_name TEXT NOT NULL, sections TEXT NOT NULL, read_on TEXT NOT NULL,
  away INTEGER NOT NULL CHECK (away IN (0, 1))
) STRICT;

-- The words of the stories for searching. The story's own row numbers are no
-- stable key, so the id is carried along.
CREATE VIRTUAL TABLE story_words USING fts5 (
  story UNINDEXED, title, text, tokenize = 'porter unicode61 remove_diacritics 2'
);
INSERT INTO story_words (story_words, rank) VALUES ('secure-delete', 1);
CREATE TRIGGER story_added AFTER INSERT ON story BEGIN
  INSERT INTO story_words (story, title, text) VALUES (new.id, new.title, new.text);
END;
CREATE TRIGGER story_renamed AFTER UPDATE OF title, text ON story BEGIN
  UPDATE story_words SET title = new.title, text = new.text WHERE story = new.id;
END;
CREATE TRIGGER story_removed AFTER DELETE ON story BEGIN
  DELETE FROM story_words WHERE story = old.id;
END;

-- What an engine version says about a text; it can always be made again.
CREATE TABLE analysis (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  text_hash TEXT NOT NULL, engine TEXT NOT NULL, body BLOB NOT NULL,
  UNIQUE (text_hash, engine)
) STRICT;

CREATE TABLE sitting (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  seq INTEGER NOT NULL, kind TEXT NOT NULL, story TEXT NOT NULL REFERENCES story (id),
  plan TEXT NOT NULL, seed INTEGER NOT NULL, engine TEXT NOT NULL
) STRICT;
CREATE INDEX sitting_story ON sitting (story);

CREATE TABLE seat (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  sitting TEXT NOT NULL REFERENCES sitting (id),
  learner TEXT NOT NULL REFERENCES learner (id), place INTEGER NOT NULL
) STRICT;
CREATE INDEX seat_sitting ON seat (sitting);
CREATE INDEX seat_learner ON seat (learner);

-- The end of a sitting. A sitting without one can be resumed.
CREATE TABLE sitting_end (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  seq INTEGER NOT NULL, sitting TEXT NOT NULL REFERENCES sitting (id),
  how TEXT NOT NULL CHECK (how IN ('done', 'stopped'))
) STRICT;
CREATE INDEX sitting_end_sitting ON sitting_end (sitting, seq);

CREATE TABLE position (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  seq INTEGER NOT NULL, sitting TEXT NOT NULL REFERENCES sitting (id),
  seat TEXT NOT NULL REFERENCES seat (id), learner TEXT NOT NULL REFERENCES learner (id),
  moment_no INTEGER NOT NULL, step_no INTEGER NOT NULL, state TEXT NOT NULL
) STRICT;
CREATE INDEX position_sitting ON position (sitting, seq);
CREATE INDEX position_learner ON position (learner);

-- moment, step and given are kept whole as they were shown and said, so that
-- an old mark stays explainable whatever the engine finds today.
CREATE TABLE answer (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  seq INTEGER NOT NULL, sitting TEXT NOT NULL REFERENCES sitting (id),
  seat TEXT NOT NULL REFERENCES seat (id), learner TEXT NOT NULL REFERENCES learner (id),
  story TEXT NOT NULL REFERENCES story (id), text_hash TEXT NOT NULL, engine TEXT NOT NULL,
  moment_id TEXT NOT NULL, step_no INTEGER NOT NULL, step_kind TEXT NOT NULL,
  moment TEXT NOT NULL, step TEXT NOT NULL, given TEXT NOT NULL
) STRICT;
CREATE INDEX answer_sitting ON answer (sitting, moment_id, step_no, seq);
CREATE INDEX answer_learner ON answer (learner, seq);

CREATE TABLE mark (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  seq INTEGER NOT NULL, answer TEXT NOT NULL REFERENCES answer (id),
  learner TEXT NOT NULL REFERENCES learner (id),
  marker TEXT NOT NULL CHECK (marker IN ('program', 'guide')),
  value TEXT NOT NULL, why TEXT NOT NULL, blind INTEGER NOT NULL CHECK (blind IN (0, 1))
) STRICT;
CREATE INDEX mark_answer ON mark (answer, marker, seq);
CREATE INDEX mark_learner ON mark (learner);

CREATE TABLE withdrawal (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  seq INTEGER NOT NULL, answer TEXT NOT NULL REFERENCES answer (id),
  learner TEXT NOT NULL REFERENCES learner (id), cause TEXT NOT NULL
) STRICT;
CREATE INDEX withdrawal_answer ON withdrawal (answer);
CREATE INDEX withdrawal_learner ON withdrawal (learner);

CREATE TABLE help (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  seq INTEGER NOT NULL, sitting TEXT NOT NULL REFERENCES sitting (id),
  seat TEXT NOT NULL REFERENCES seat (id), learner TEXT NOT NULL REFERENCES learner (id),
  moment_id TEXT NOT NULL, step_no INTEGER NOT NULL, answer TEXT REFERENCES answer (id)
) STRICT;
CREATE INDEX help_step ON help (sitting, moment_id, step_no);
CREATE INDEX help_answer ON help (answer);
CREATE INDEX help_learner ON help (learner);

CREATE TABLE body_note (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  learner TEXT NOT NULL REFERENCES learner (id),
  sitting TEXT REFERENCES sitting (id), places TEXT NOT NULL, said TEXT NOT NULL
) STRICT;
CREATE INDEX body_note_learner ON body_note (learner);

CREATE TABLE word (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  learner TEXT NOT NULL REFERENCES learner (id), form TEXT NOT NULL, family TEXT NOT NULL,
  sense TEXT NOT NULL, places TEXT NOT NULL, shade REAL NOT NULL, language TEXT NOT NULL,
  away INTEGER NOT NULL CHECK (away IN (0, 1))
) STRICT;
CREATE INDEX word_learner ON word (learner);

CREATE TABLE experience (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  learner TEXT NOT NULL REFERENCES learner (id), word TEXT NOT NULL REFERENCES word (id),
  happened_on TEXT NOT NULL, what TEXT NOT NULL, place TEXT NOT NULL,
  how_strong TEXT NOT NULL, helped TEXT NOT NULL, written_by TEXT NOT NULL,
  sitting TEXT REFERENCES sitting (id)
) STRICT;
CREATE INDEX experience_learner ON experience (learner);
CREATE INDEX experience_word ON experience (word);

CREATE TABLE word_use (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  learner TEXT NOT NULL REFERENCES learner (id), word TEXT NOT NULL REFERENCES word (id),
  used_on TEXT NOT NULL, note TEXT NOT NULL
) STRICT;
CREATE INDEX word_use_learner ON word_use (learner);
CREATE INDEX word_use_word ON word_use (word);

CREATE TABLE phase_line (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  learner TEXT NOT NULL REFERENCES learner (id), before_day TEXT NOT NULL, label TEXT NOT NULL
) STRICT;
CREATE INDEX phase_line_learner ON phase_line (learner);

CREATE TABLE family (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  family TEXT NOT NULL UNIQUE, name TEXT NOT NULL, nearest TEXT NOT NULL,
  away INTEGER NOT NULL CHECK (away IN (0, 1))
) STRICT;

CREATE TABLE expression (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  text TEXT NOT NULL, kind TEXT NOT NULL, families TEXT NOT NULL, places TEXT NOT NULL,
  note TEXT NOT NULL, away INTEGER NOT NULL CHECK (away IN (0, 1))
) STRICT;

-- A mend stands apart from the analysis it mends and is found again by its
-- quote. Taking one back is a row that names it in "undoes".
CREATE TABLE mend (
  id TEXT PRIMARY KEY, device TEXT NOT NULL, at TEXT NOT NULL, day TEXT NOT NULL,
  utc_offset TEXT NOT NULL, demo INTEGER NOT NULL CHECK (demo IN (0, 1)),
  seq INTEGER NOT NULL, text_hash TEXT NOT NULL, quote TEXT NOT NULL,
  before TEXT NOT NULL, after TEXT NOT NULL, character TEXT NOT NULL,
  what TEXT NOT NULL, new_character TEXT NOT NULL, kind TEXT NOT NULL,
  families TEXT NOT NULL, places TEXT NOT NULL, note TEXT NOT NULL,
  undoes TEXT REFERENCES mend (id)
) STRICT;
CREATE INDEX mend_text ON mend (text_hash, seq);
CREATE INDEX mend_undoes ON mend (undoes);

-- Only added, never changed.
CREATE TRIGGER sitting_unchanged BEFORE UPDATE ON sitting BEGIN
  SELECT RAISE (ABORT, 'sitting: events are only added');
END;
CREATE TRIGGER sitting_kept BEFORE DELETE ON sitting
WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN
  SELECT RAISE (ABORT, 'sitting: events are only added');
END;
CREATE TRIGGER sitting_end_unchanged BEFORE UPDATE ON sitting_end BEGIN
  SELECT RAISE (ABORT, 'sitting_end: events are only added');
END;
CREATE TRIGGER sitting_end_kept BEFORE DELETE ON sitting_end
WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN
  SELECT RAISE (ABORT, 'sitting_end: events are only added');
END;
CREATE TRIGGER position_unchanged BEFORE UPDATE ON position BEGIN
  SELECT RAISE (ABORT, 'position: events are only added');
END;
CREATE TRIGGER position_kept BEFORE DELETE ON position
WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN
  SELECT RAISE (ABORT, 'position: events are only added');
END;
CREATE TRIGGER answer_unchanged BEFORE UPDATE ON answer BEGIN
  SELECT RAISE (ABORT, 'answer: events are only added');
END;
CREATE TRIGGER answer_kept BEFORE DELETE ON answer
WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN
  SELECT RAISE (ABORT, 'answer: events are only added');
END;
CREATE TRIGGER mark_unchanged BEFORE UPDATE ON mark BEGIN
  SELECT RAISE (ABORT, 'mark: events are only added');
END;
CREATE TRIGGER mark_kept BEFORE DELETE ON mark
WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN
  SELECT RAISE (ABORT, 'mark: events are only added');
END;
CREATE TRIGGER withdrawal_unchanged BEFORE UPDATE ON withdrawal BEGIN
  SELECT RAISE (ABORT, 'withdrawal: events are only added');
END;
CREATE TRIGGER withdrawal_kept BEFORE DELETE ON withdrawal
WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN
  SELECT RAISE (ABORT, 'withdrawal: events are only added');
END;
CREATE TRIGGER help_unchanged BEFORE UPDATE ON help BEGIN
  SELECT RAISE (ABORT, 'help: events are only added');
END;
CREATE TRIGGER help_kept BEFORE DELETE ON help
WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN
  SELECT RAISE (ABORT, 'help: events are only added');
END;
CREATE TRIGGER mend_unchanged BEFORE UPDATE ON mend BEGIN
  SELECT RAISE (ABORT, 'mend: events are only added');
END;
CREATE TRIGGER mend_kept BEFORE DELETE ON mend
WHEN NOT EXISTS (SELECT 1 FROM erasing) BEGIN
  SELECT RAISE (ABORT, 'mend: events are only added');
END;
