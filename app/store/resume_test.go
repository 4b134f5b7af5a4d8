//go:build unix

package store

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"feltpage/app/record"
	"feltpage/app/ui/model"
	"feltpage/corpus/shelf"
	"feltpage/exercises"
	"feltpage/exercises/marking"
	"feltpage/exercises/moments"
	"feltpage/exercises/steps"
	"feltpage/exercises/wordbook"
	"feltpage/nlp/feelings"
	"feltpage/nlp/pipeline"
)

// Started with this set to a data folder, the test binary opens the household
// there, sits down to a story of the shelf and answers, telling before each
// thing to do where it stands and going on when a byte comes in.
const readHere = "FELTPAGE_TEST_READ_HERE"

// lesson gives the plan of a sitting on the first starter story with at least
// two moments, as the reading engine finds them.
func lesson(s *Store) (p model.SittingPlan, err error) {
	engine, err := pipeline.New()
	if err != nil {
		return p, err
	}
	table, err := feelings.Load()
	if err != nil {
		return p, err
	}
	stories, err := shelf.Stories()
	if err != nil {
		return p, err
	}
	for _, story := range stories {
		a, err := engine.Analyze(context.Background(), story.Text)
		if err != nil {
			return p, err
		}
		ms := moments.Choose(a, table)
		if len(ms) < 2 {
			continue
		}
		p.Moments, p.Analysis, p.Now, p.Seed = ms[:2], a, time.Now, 5
		if p.Story, err = s.AddStory(record.Story{Story: story}); err != nil {
			return p, err
		}
		p.Steps = func(m exercises.Moment, n int, seed int64) []exercises.Step {
			return steps.Build(m, a, table, wordbook.Book{}, rand.New(rand.NewPCG(uint64(seed), uint64(n))), steps.Options{})
		}
		p.Judge = func(m exercises.Moment, st exercises.Step, ans exercises.Answer) exercises.Mark {
			return marking.Judge(marking.Context{Text: story.Text, Table: table}, m, st, ans)
		}
		return p, nil
	}
	return p, fmt.Errorf("no story with two moments on the shelf")
}

func where(g *model.Sitting) string {
	v := g.View()
	return fmt.Sprintf("%s %d %d %s level %d: %s %s", v.Phase, v.Moment, v.StepNo, v.Step, v.Level, v.Prompt, v.Feedback)
}

func readUntilKilled(dir string) {
	err := func() error {
		s, err := Open(dir, Options{})
		if err != nil {
			return err
		}
		p, err := lesson(s)
		if err != nil {
			return err
		}
		if p.Learner, err = s.SaveLearner(record.Learner{Nickname: "Moss", Mode: exercises.BySpeak}); err != nil {
			return err
		}
		g, err := model.NewSitting(s, p)
		if err != nil {
			return err
		}
		for i := 0; g.View().Phase != model.Ended; i++ {
			fmt.Println(where(g))
			if _, err := os.Stdin.Read(make([]byte, 1)); err != nil {
				return err
			}
			switch v := g.View(); {
			case v.Phase == model.Feedback:
				g.Next()
			case i%4 == 1 && v.CanHelp:
				g.LittleHelp()
			default:
				g.Stand(v.Standing[0].ID)
				g.Next()
			}
		}
		return errors.New("read to the end and was not killed")
	}()
	fmt.Fprintln(os.Stderr, err)
	os.Exit(1)
}

// Wherever in a sitting the program is killed, it goes on at the question, or
// the feedback, that was being shown.
func TestAKilledSittingGoesOnWhereItWas(t *testing.T) {
	for lines := 1; lines <= 9; lines += 2 {
		dir := t.TempDir()
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), readHere+"="+dir)
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		goOn, err := cmd.StdinPipe()
		require.NoError(t, err)
		var said strings.Builder
		cmd.Stderr = &said
		require.NoError(t, cmd.Start())
		var told []string
		for in := bufio.NewScanner(out); in.Scan(); {
			told = append(told, in.Text())
			if len(told) <= lines {
				_, err := goOn.Write([]byte{'\n'})
				require.NoError(t, err)
			}
			if len(told) == lines { // it is doing the next thing, or about to
				require.NoError(t, cmd.Process.Signal(syscall.SIGKILL))
			}
		}
		require.Error(t, cmd.Wait())
		require.GreaterOrEqual(t, len(told), lines, said.String())
		require.Empty(t, said.String())

		s := must[*Store](t)(Open(dir, Options{}))
		learners := must[[]record.Learner](t)(s.Learners())
		open := must[[]record.Resume](t)(s.Unfinished(learners[0].ID))
		require.Len(t, open, 1)
		p := must[model.SittingPlan](t)(lesson(s))
		p.Learner, p.Resume = learners[0], &open[0].Sitting
		g := must[*model.Sitting](t)(model.NewSitting(s, p))
		// What was done after the last line was told may have been kept too.
		if now := where(g); now != told[len(told)-1] {
			require.NotContains(t, told, now, "it went back")
		}
		require.NoError(t, s.Close())
	}
}
