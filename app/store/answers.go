package store

import (
	"database/sql"

	"feltpage/app/record"
	"feltpage/exercises"
)

// AppendAnswer keeps an answer; it is on disk when AppendAnswer returns.
func (s *Store) AppendAnswer(a record.Answer) (record.Answer, error) {
	err := s.write("keeping an answer", func(tx *sql.Tx) error {
		m, seq, err := s.stampEvent(tx, a.Learner)
		if err != nil {
			return err
		}
		a.Meta = m
		return insert(tx, "answer", m, "seq", seq, "sitting", a.Sitting, "seat", a.Seat,
			"learner", a.Learner, "story", a.StoryID, "text_hash", a.TextHash, "engine", a.Engine,
			"moment_id", a.Moment.ID, "step_no", a.StepNo, "step_kind", a.Step.Kind,
			"moment", asJSON{a.Moment}, "step", asJSON{a.Step}, "given", asJSON{a.Answer})
	})
	return a, err
}

// AppendMark keeps a mark of an answer. Its learner is the answer's.
func (s *Store) AppendMark(k record.Mark) (record.Mark, error) {
	err := s.write("keeping a mark", func(tx *sql.Tx) (err error) {
		if k.Learner, err = learnerOf(tx, k.AnswerID); err != nil {
			return err
		}
		m, seq, err := s.stampEvent(tx, k.Learner)
		if err != nil {
			return err
		}
		k.Meta = m
		return insert(tx, "mark", m, "seq", seq, "answer", k.AnswerID, "learner", k.Learner,
			"marker", k.By, "value", k.Mark.Value, "why", asJSON{k.Mark.Why}, "blind", k.Blind)
	})
	return k, err
}

// Withdraw takes an answer back. The answer stays as a fact.
func (s *Store) Withdraw(w record.Withdrawal) (record.Withdrawal, error) {
	err := s.write("taking an answer back", func(tx *sql.Tx) (err error) {
		if w.Learner, err = learnerOf(tx, w.AnswerID); err != nil {
			return err
		}
		m, seq, err := s.stampEvent(tx, w.Learner)
		if err != nil {
			return err
		}
		w.Meta = m
		return insert(tx, "withdrawal", m, "seq", seq, "answer", w.AnswerID, "learner", w.Learner, "cause", w.Why)
	})
	return w, err
}

// RecordHelp keeps the guide's "I helped".
func (s *Store) RecordHelp(h record.Help) (record.Help, error) {
	err := s.write("keeping a help", func(tx *sql.Tx) error {
		m, seq, err := s.stampEvent(tx, h.Learner)
		if err != nil {
			return err
		}
		h.Meta = m
		return insert(tx, "help", m, "seq", seq, "sitting", h.Sitting, "seat", h.Seat,
			"learner", h.Learner, "moment_id", h.MomentID, "step_no", h.StepNo, "answer", orNull(h.AnswerID))
	})
	return h, err
}

func learnerOf(tx *sql.Tx, answer string) (id string, err error) {
	err = tx.QueryRow("SELECT learner FROM answer WHERE id = ?", answer).Scan(&id)
	return id, err
}

const answerCols = "answer.sitting, answer.seat, answer.learner, answer.story, answer.text_hash," +
	" answer.engine, answer.step_no, answer.moment, answer.step, answer.given"

func answerInto(a *record.Answer) []any {
	return append(metaInto(&a.Meta), &a.Sitting, &a.Seat, &a.Learner, &a.StoryID, &a.TextHash,
		&a.Engine, &a.StepNo, jsonInto{&a.Moment}, jsonInto{&a.Step}, jsonInto{&a.Answer})
}

// Answers lists a learner's answers in the order given, withdrawn ones too.
func (s *Store) Answers(learner string) ([]record.Answer, error) {
	out, err := all(s.q(), answerInto, "SELECT "+metaOf("answer")+", "+answerCols+
		" FROM answer WHERE learner = ? ORDER BY seq", learner)
	return out, s.explain("reading the answers", err)
}

// Marked lists a learner's answers in the order given, each with what counts
// for it now: the newest mark of the program and of the guide, help,
// withdrawal, and what its sitting was for.
func (s *Store) Marked(learner string) ([]record.Marked, error) {
	out, err := marked(s.q(), "answer.learner = ?", learner)
	return out, s.explain("reading the marked answers", err)
}

// MarkedIn is Marked for the answers of one sitting, all seats.
func (s *Store) MarkedIn(sitting string) ([]record.Marked, error) {
	out, err := marked(s.q(), "answer.sitting = ?", sitting)
	return out, s.explain("reading the marked answers", err)
}

// Marks lists every mark an answer ever got, oldest first.
func (s *Store) Marks(answer string) ([]record.Mark, error) {
	out, err := all(s.q(), func(k *record.Mark) []any {
		return append(metaInto(&k.Meta), &k.AnswerID, &k.Learner, &k.By, &k.Mark.Value, jsonInto{&k.Mark.Why}, &k.Blind)
	}, "SELECT "+metaOf("mark")+", answer, learner, marker, value, why, blind FROM mark WHERE answer = ? ORDER BY seq", answer)
	return out, s.explain("reading the marks", err)
}

// A help counts for the answer it names; else for the last answer to its step
// before it; where there was none yet, for those that came.
const helped = `EXISTS (SELECT 1 FROM help WHERE help.answer = answer.id)
 OR EXISTS (SELECT 1 FROM help WHERE help.answer IS NULL
  AND help.sitting = answer.sitting AND help.seat = answer.seat
  AND help.moment_id = answer.moment_id AND help.step_no = answer.step_no
  AND NOT EXISTS (SELECT 1 FROM answer AS other
   WHERE other.sitting = answer.sitting AND other.seat = answer.seat
   AND other.moment_id = answer.moment_id AND other.step_no = answer.step_no
   AND other.seq < help.seq AND (other.seq > answer.seq OR help.seq < answer.seq)))`

func marked(q querier, where string, args ...any) ([]record.Marked, error) {
	return all(q, func(m *record.Marked) []any {
		return append(answerInto(&m.Answer), markInto{&m.Program}, markInto{&m.Guide}, markInto{&m.Blind},
			helpedInto{&m.Helped, &m.Answer.Answer}, &m.Withdrawn, &m.SittingKind, &m.SittingDay)
	}, markedQuery(where), args...)
}

func markedQuery(where string) string {
	return "SELECT " + metaOf("answer") + ", " + answerCols +
		", " + markBy(record.ByProgram, "1 ORDER BY seq DESC") + ", " + markBy(record.ByGuide, "1 ORDER BY seq DESC") +
		", " + markBy(record.ByGuide, "blind ORDER BY seq") + ", " + helped +
		", EXISTS (SELECT 1 FROM withdrawal WHERE answer = answer.id), sitting.kind, sitting.day" +
		" FROM answer JOIN sitting ON sitting.id = answer.sitting WHERE " + where + " ORDER BY answer.seq"
}

// markBy gives the first mark of a marker, of those that fulfil a condition and
// in its order, as JSON, or NULL.
func markBy(by record.Marker, condition string) string {
	return "(SELECT json_object('Value', value, 'Why', json(why)) FROM mark WHERE answer = answer.id" +
		" AND marker = '" + string(by) + "' AND " + condition + " LIMIT 1)"
}

// markInto scans a mark as JSON, or NULL.
type markInto struct{ m **exercises.Mark }

// Scan implements sql.Scanner.
func (i markInto) Scan(v any) error {
	if v == nil {
		*i.m = nil
		return nil
	}
	*i.m = new(exercises.Mark)
	return jsonInto{*i.m}.Scan(v)
}

// helpedInto scans whether a help was recorded and adds what the answer, which
// stands before it in the row, says itself.
type helpedInto struct {
	helped *bool
	answer *exercises.Answer
}

// Scan implements sql.Scanner.
func (i helpedInto) Scan(v any) error {
	n, ok := v.(int64)
	*i.helped = ok && n != 0 || i.answer.GuideHelp
	return nil
}
