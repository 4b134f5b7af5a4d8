package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os/exec"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const root = "../.."

// source is one Go file: its package folder below the root, its imports.
type source struct {
	file, dir string
	imports   []string
	comment   string
	test      bool
}

func sources(t *testing.T) []source {
	t.Helper()
	var out []source
	err := filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (strings.HasPrefix(d.Name(), ".") && d.Name() != ".." || d.Name() == "node_modules" || d.Name() == "testdata") {
			return filepath.SkipDir
		}
		if filepath.Ext(p) != ".go" {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), p, nil, parser.ImportsOnly|parser.ParseComments)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, p)
		if err != nil {
			return err
		}
		s := source{file: filepath.ToSlash(rel), test: strings.HasSuffix(p, "_test.go")}
		s.dir = path.Dir(s.file)
		if f.Doc != nil {
			s.comment = f.Doc.Text()
		}
		for _, i := range f.Imports {
			name, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			s.imports = append(s.imports, name)
		}
		out = append(out, s)
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, len(out), 20, "the walk must have met the house")
	return out
}

// within reports whether dir is one of the folders or lies below one.
func within(dir string, folders ...string) bool {
	return slices.ContainsFunc(folders, func(f string) bool {
		return dir == f || strings.HasPrefix(dir, f+"/")
	})
}

// The layers, lowest first: a package may import its own layer and lower ones.
var layers = []string{"nlp", "corpus", "exercises", "app", "cmd"}

func layer(dir string) int {
	return slices.IndexFunc(layers, func(l string) bool { return within(dir, l) })
}

func TestImportsPointOneWay(t *testing.T) {
	for _, s := range sources(t) {
		for _, name := range s.imports {
			if own, ok := strings.CutPrefix(name, "feltpage/"); ok && !s.test {
				assert.GreaterOrEqual(t, layer(s.dir), layer(own), "%s imports %s, a layer above it", s.file, name)
			}
			switch {
			case name == "fyne.io/fyne/v2/app":
				assert.Equal(t, "cmd/feltpage", s.dir, "%s imports Fyne's app, which brings in the graphics libraries", s.file)
			case within(name, "fyne.io"):
				ok := within(s.dir, "app/ui/look", "app/ui/parts", "cmd/feltpage") || s.dir == "app/ui"
				assert.True(t, ok, "%s imports Fyne", s.file)
			case name == "database/sql" || within(name, "github.com/mattn"):
				assert.True(t, within(s.dir, "app/store"), "%s imports SQL", s.file)
			case within(name, "github.com/jdkato"):
				ok := within(s.dir, "nlp/tag") && (s.test || within(s.dir, "nlp/tag/gen"))
				assert.True(t, ok, "%s imports prose outside the tagger's generator and tests", s.file)
			}
		}
	}
}

func TestEveryPackageHasAComment(t *testing.T) {
	comments := map[string]bool{}
	for _, s := range sources(t) {
		if !s.test {
			comments[s.dir] = comments[s.dir] || s.comment != ""
		}
	}
	for dir, ok := range comments {
		assert.True(t, ok, "package in %s has no comment", dir)
	}
}

// The headless edition must build where no graphics or C libraries are.
func TestHeadlessNeedsNoGraphics(t *testing.T) {
	out, err := exec.Command("go", "list", "-deps", "-tags", "headless", ".").CombinedOutput()
	require.NoError(t, err, string(out))
	deps := strings.Fields(string(out))
	require.Contains(t, deps, "feltpage/nlp/pipeline")
	for _, d := range deps {
		assert.False(t, within(d, "fyne.io", "github.com/go-gl", "github.com/mattn"), "the headless edition needs %s", d)
	}
}
