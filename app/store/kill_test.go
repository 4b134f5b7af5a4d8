//go:build unix

package store

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"

	"feltpage/app/record"
)

// When the test binary is started with this set to a data folder, it opens the
// household there and appends answers until it is killed, telling each one's
// id after it was kept.
const writeHere = "FELTPAGE_TEST_WRITE_HERE"

func TestMain(m *testing.M) {
	if dir := os.Getenv(writeHere); dir != "" {
		writeUntilKilled(dir)
	}
	if dir := os.Getenv(readHere); dir != "" {
		readUntilKilled(dir)
	}
	os.Exit(m.Run())
}

func writeUntilKilled(dir string) {
	fail := func(err error) {
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
	s, err := Open(dir, Options{})
	fail(err)
	l, err := s.SaveLearner(record.Learner{Nickname: "Moss"})
	fail(err)
	r, err := s.AddStory(tale)
	fail(err)
	g, err := s.StartSitting(record.Sitting{Kind: record.Teaching, StoryID: r.Meta.ID, Seats: []record.Seat{{Learner: l.ID}}})
	fail(err)
	for i := 0; ; i++ {
		a, err := s.AppendAnswer(record.Answer{Sitting: g.ID, Seat: g.Seats[0].ID, Learner: l.ID, StoryID: r.Meta.ID, StepNo: i})
		fail(err)
		fmt.Println(a.ID)
		if i%3 == 0 {
			// Erasing and big texts in between: a kill may fall there as well.
			other := tale
			other.Hash, other.Text = fmt.Sprint("h", i), strings.Repeat("The tide came in. ", 500)
			_, err := s.AddStory(other)
			fail(err)
		}
	}
}

// What the kernel has taken survives a kill; that it also reaches the disk
// before a method returns is SQLite's synchronous=FULL in WAL mode
// (sqlite.org/pragma.html#pragma_synchronous), asserted below.
func TestAKillLosesNoAnswer(t *testing.T) {
	dir := t.TempDir()
	kept := 0
	for round := range 4 {
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), writeHere+"="+dir)
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		var said strings.Builder
		cmd.Stderr = &said
		require.NoError(t, cmd.Start())
		var ids []string
		lines := bufio.NewScanner(out)
		for len(ids) < 5+7*round && lines.Scan() {
			ids = append(ids, lines.Text())
		}
		require.NoError(t, cmd.Process.Signal(syscall.SIGKILL))
		for lines.Scan() { // told between the last line read and the kill
			ids = append(ids, lines.Text())
		}
		require.Error(t, cmd.Wait())
		require.GreaterOrEqual(t, len(ids), 5+7*round, said.String())

		s, err := Open(dir, Options{}) // at once: the lock died with it
		require.NoError(t, err)
		learners, err := s.Learners()
		require.NoError(t, err)
		require.Len(t, learners, round+1)
		found := map[string]bool{}
		for _, l := range learners {
			answers, err := s.Answers(l.ID)
			require.NoError(t, err)
			for _, a := range answers {
				found[a.ID] = true
			}
			unfinished, err := s.Unfinished(l.ID)
			require.NoError(t, err)
			require.Len(t, unfinished, 1)
			require.Len(t, unfinished[0].Answers, len(answers))
		}
		for _, id := range ids {
			require.True(t, found[id], "an answer that was told is gone")
		}
		kept += len(ids)
		require.GreaterOrEqual(t, len(found), kept)
		require.NoError(t, s.Close())
	}
}

func TestEveryCommitReachesTheDisk(t *testing.T) {
	s := openTest(t)
	for pragma, want := range map[string]string{
		"synchronous": "2", "fullfsync": "1", "journal_mode": "wal", "foreign_keys": "1", "recursive_triggers": "1",
		"secure_delete": "1", "busy_timeout": "5000", "application_id": fmt.Sprint(applicationID),
	} {
		var got string
		require.NoError(t, s.db().QueryRow("PRAGMA "+pragma).Scan(&got))
		require.Equal(t, want, got, pragma)
	}
}
