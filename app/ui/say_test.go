package ui

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"feltpage/app/record"
	"feltpage/app/say"
	"feltpage/exercises"
	"feltpage/exercises/wordbook"
)

// Every key that the screens and their models say is in the catalogue, and no
// screen has words of its own.
func TestEverySentenceIsInTheCatalogue(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	more, err := filepath.Glob("model/*.go")
	require.NoError(t, err)
	used := 0
	for _, name := range append(files, more...) {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		src, err := os.ReadFile(name)
		require.NoError(t, err)
		f, err := parser.ParseFile(token.NewFileSet(), name, src, 0)
		require.NoError(t, err)
		ast.Inspect(f, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) == 0 {
				return true
			}
			lit, ok := call.Args[0].(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING {
				return true
			}
			key, err := strconv.Unquote(lit.Value)
			require.NoError(t, err)
			switch nameOf(call.Fun) {
			case "say.T":
				used++
				require.True(t, say.English().Has(key), "%s says %q", name, key)
			case "model.Count", "Count":
				used++
				require.True(t, say.English().Has(key+".one"), "%s counts %q", name, key)
				require.True(t, say.English().Has(key+".many"), "%s counts %q", name, key)
			case "parts.NewWords", "parts.NewSoft", "parts.NewButton", "parts.NewRow", "parts.NewTick", "head", "bold":
				if strings.ContainsFunc(key, unicode.IsLetter) {
					t.Errorf("%s has words of its own: %q", name, key)
				}
			}
			return true
		})
	}
	require.Greater(t, used, 100, "the walk must have met the screens")
	for _, k := range tabs {
		require.True(t, say.English().Has("nav."+string(k)))
	}
	for _, k := range kinds {
		require.True(t, say.English().Has("clue.kind."+k))
	}
	for _, m := range append(marks, exercises.ForGuide) {
		require.True(t, say.English().Has("mark.value."+string(m)))
	}
	for _, s := range []wordbook.State{wordbook.New, wordbook.Tied, wordbook.Free} {
		require.True(t, say.English().Has("words.state."+string(s)))
		require.True(t, say.English().Has("words.legend."+string(s)))
	}
	for _, k := range []exercises.StepKind{exercises.Find, exercises.Body, exercises.Feeling, exercises.Reason, exercises.AndYou, exercises.CouldHelp} {
		require.True(t, say.English().Has("step.name."+string(k)))
	}
	for _, k := range []exercises.AnswerMode{exercises.ByTap, exercises.ByPoint, exercises.BySpeak, exercises.ByType} {
		require.True(t, say.English().Has("setup.mode."+string(k)))
	}
	for _, k := range []exercises.Route{exercises.RouteBody, exercises.RouteNamed, exercises.RouteEvent} {
		require.True(t, say.English().Has("moment.route."+string(k)))
	}
	for _, k := range []string{exercises.StandNothing, exercises.StandCantTell, exercises.StandDontKnow, exercises.StandSkip, exercises.StandStop, exercises.StandNotTelling} {
		require.True(t, say.English().Has("stand.said."+k))
	}
	for _, k := range []record.SittingKind{record.Baseline, record.Probe} {
		require.True(t, say.English().Has("today.measure."+string(k)))
		require.True(t, say.English().Has("today.measure-more."+string(k)))
	}
	for i := range 5 {
		require.True(t, say.English().Has("prompt."+strconv.Itoa(i)))
	}
}

func nameOf(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.SelectorExpr:
		return nameOf(e.X) + "." + e.Sel.Name
	}
	return ""
}
