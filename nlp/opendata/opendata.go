// Package opendata finds the open data that tests and benchmarks measure on.
// They are no part of the repository: they lie in a folder "shared" beside it,
// or where the environment variable FELTPAGE_SHARED says. It finds the npm
// packages that some tests compare with, too. Only tests import it.
package opendata

import (
	"bufio"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"testing"
)

// Path gives the path of a file or folder of the data ("data/…"), or skips the
// test with a plain message.
func Path(tb testing.TB, name string) string {
	tb.Helper()
	root := os.Getenv("FELTPAGE_SHARED")
	if root == "" {
		root = filepath.Join(repository(tb), "..", "shared")
	}
	path := filepath.Join(root, filepath.FromSlash(name))
	if _, err := os.Stat(path); err != nil {
		tb.Skipf("the open data are not at %s; set FELTPAGE_SHARED to their folder", path)
	}
	return path
}

// Node gives the folder "node_modules" that holds the named npm packages, or
// skips: it lies in FELTPAGE_NODE or, where "make test" puts it, in bin/measure.
// Scripts find the packages with NODE_PATH set to it.
func Node(tb testing.TB, packages ...string) string {
	tb.Helper()
	if _, err := exec.LookPath("node"); err != nil {
		tb.Skip("node is not installed, so there is nothing to compare with")
	}
	dir := os.Getenv("FELTPAGE_NODE")
	if dir == "" {
		dir = filepath.Join(repository(tb), "bin", "measure")
	}
	dir = filepath.Join(dir, "node_modules")
	for _, p := range packages {
		if _, err := os.Stat(filepath.Join(dir, p)); err != nil {
			tb.Skipf("the npm package %s is not in %s; \"make libraries\" installs it", p, dir)
		}
	}
	return dir
}

// repository gives the folder that holds go.mod, above the test's own.
func repository(tb testing.TB) string {
	tb.Helper()
	dir, err := os.Getwd()
	if err != nil {
		tb.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
		up := filepath.Dir(dir)
		if up == dir {
			tb.Fatal("no go.mod above the test")
		}
		dir = up
	}
}

// Sections gives the sections of each development story, in order of file name
// (FairytaleQA, Xu et al. 2022, ACL; Apache-2.0), or skips.
func Sections(tb testing.TB) [][]string {
	tb.Helper()
	files, err := filepath.Glob(filepath.Join(Path(tb, "data/fairytale-dev/stories"), "*.jsonl"))
	if err != nil {
		tb.Fatal(err)
	}
	sort.Strings(files)
	var out [][]string
	for _, name := range files {
		out = append(out, sections(tb, name))
	}
	return out
}

func sections(tb testing.TB, name string) []string {
	tb.Helper()
	f, err := os.Open(name)
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	var out []string
	sc := bufio.NewScanner(f)
	sc.Buffer(nil, 16<<20)
	for sc.Scan() {
		var s struct{ Text string }
		if err := json.Unmarshal(sc.Bytes(), &s); err != nil {
			tb.Fatalf("%s: %v", name, err)
		}
		out = append(out, s.Text)
	}
	if err := sc.Err(); err != nil {
		tb.Fatalf("%s: %v", name, err)
	}
	return out
}

// Stories gives each development story as one text, or skips.
func Stories(tb testing.TB) []string {
	tb.Helper()
	var out []string
	for _, s := range Sections(tb) {
		out = append(out, strings.Join(s, "\n\n"))
	}
	return out
}
