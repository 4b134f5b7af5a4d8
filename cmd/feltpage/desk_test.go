//go:build !headless

package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"feltpage/app/ui/model"
)

// desk is a virtual screen with a window manager, for tests in a real window.
type desk struct {
	t             *testing.T
	display       string
	width, height int
	shots         string // folder of screenshots
}

// patience is how long a test waits for a state line before it says which one
// never came. It is no measure of speed.
const patience = 90 * time.Second

// newDesk starts Xvfb and openbox. Without them the test is skipped, unless
// FELTPAGE_WINDOW=1 says that they must be here.
func newDesk(t *testing.T, width, height int) *desk {
	t.Helper()
	for _, tool := range []string{"Xvfb", "openbox", "xdotool", "import", "tesseract"} {
		if _, err := exec.LookPath(tool); err != nil {
			if os.Getenv("FELTPAGE_WINDOW") == "1" {
				t.Fatalf("the window tests need %s; .ci/setup test installs it", tool)
			}
			t.Skipf("no %s here, so no window test; .ci/setup test installs it", tool)
		}
	}
	if testing.Short() {
		t.Skip("window tests are left out with -short")
	}
	d := &desk{t: t, width: width, height: height, shots: os.Getenv("FELTPAGE_SHOTS")}
	if d.shots == "" {
		d.shots = t.TempDir()
	} else {
		require.NoError(t, os.MkdirAll(d.shots, 0o755))
	}
	r, w, err := os.Pipe()
	require.NoError(t, err)
	x := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", fmt.Sprintf("%dx%dx24", width, height), "-nolisten", "tcp")
	x.ExtraFiles = []*os.File{w}
	require.NoError(t, x.Start())
	t.Cleanup(func() { stop(x) })
	w.Close()
	line, err := bufio.NewReader(r).ReadString('\n')
	require.NoError(t, err, "Xvfb names its display")
	d.display = ":" + strings.TrimSpace(line)
	wm := exec.Command("openbox")
	wm.Env = d.env()
	require.NoError(t, wm.Start())
	t.Cleanup(func() { stop(wm) })
	return d
}

func stop(c *exec.Cmd) {
	_ = c.Process.Signal(syscall.SIGTERM)
	done := make(chan struct{})
	go func() { _ = c.Wait(); close(done) }()
	select {
	case <-done:
	case <-time.After(10 * time.Second):
		_ = c.Process.Kill()
		<-done
	}
}

func (d *desk) env() []string {
	return append(os.Environ(), "DISPLAY="+d.display, "LIBGL_ALWAYS_SOFTWARE=1", "FYNE_SCALE=1", "LANG=C.UTF-8")
}

// tool runs a helper program on the desk and gives what it printed.
func (d *desk) tool(name string, args ...string) string {
	d.t.Helper()
	c := exec.Command(name, args...)
	c.Env = d.env()
	out, err := c.Output()
	if err != nil {
		var e *exec.ExitError
		msg := ""
		if ok := asExit(err, &e); ok {
			msg = string(e.Stderr)
		}
		d.t.Fatalf("%s %s: %v %s", name, strings.Join(args, " "), err, msg)
	}
	return string(out)
}

func asExit(err error, e **exec.ExitError) bool {
	x, ok := err.(*exec.ExitError)
	*e = x
	return ok
}

var built = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "feltpage-window-test")
	if err != nil {
		return "", err
	}
	bin := filepath.Join(dir, "feltpage")
	out, err := exec.Command("go", "build", "-tags", "sqlite_fts5", "-o", bin, ".").CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("building: %w\n%s", err, out)
	}
	return bin, nil
})

// program is the built program running on a desk.
type program struct {
	d    *desk
	cmd  *exec.Cmd
	errs bytes.Buffer

	mu     sync.Mutex
	last   model.Seen
	count  int
	ended  bool
	change chan struct{}
	window string
}

// start runs the program on a data folder and waits for its first screen.
func (d *desk) start(data string) *program {
	d.t.Helper()
	bin, err := built()
	require.NoError(d.t, err)
	p := &program{d: d, change: make(chan struct{}, 1)}
	p.cmd = exec.Command(bin, "--data", data, "--tell")
	p.cmd.Env = d.env()
	p.cmd.Stderr = &p.errs
	out, err := p.cmd.StdoutPipe()
	require.NoError(d.t, err)
	require.NoError(d.t, p.cmd.Start())
	go func() {
		sc := bufio.NewScanner(out)
		sc.Buffer(nil, 16<<20)
		for sc.Scan() {
			line, ok := strings.CutPrefix(sc.Text(), "seen ")
			if !ok {
				continue
			}
			var s model.Seen
			if json.Unmarshal([]byte(line), &s) != nil {
				continue
			}
			p.mu.Lock()
			p.last = s
			p.count++
			p.mu.Unlock()
			p.poke()
		}
		p.mu.Lock()
		p.ended = true
		p.mu.Unlock()
		p.poke()
	}()
	d.t.Cleanup(p.kill)
	p.wait("its first screen", func(model.Seen) bool { return true })
	p.window = strings.Fields(d.tool("xdotool", "search", "--sync", "--onlyvisible", "--pid", strconv.Itoa(p.cmd.Process.Pid)))[0]
	d.tool("xdotool", "windowactivate", "--sync", p.window)
	// Tall enough that every screen of the test shows whole: a target below
	// the edge cannot be clicked.
	p.mu.Lock()
	told := p.count
	p.mu.Unlock()
	d.tool("xdotool", "windowsize", p.window, strconv.Itoa(d.width-20), strconv.Itoa(d.height-60))
	p.wait("the larger window", func(model.Seen) bool { return p.count > told })
	return p
}

func (p *program) poke() {
	select {
	case p.change <- struct{}{}:
	default:
	}
}

// wait waits until the newest state satisfies ok, and gives it.
func (p *program) wait(what string, ok func(model.Seen) bool) model.Seen {
	p.d.t.Helper()
	s, came := p.waitFor(patience, ok)
	if !came {
		p.d.shot("late-" + strings.NewReplacer(" ", "-", "/", "-").Replace(what))
		p.d.t.Fatalf("waiting for %s: never came; last %s %v, targets %v\n%s", what, s.Screen, s.Facts, keys(s.Targets), p.errs.String())
	}
	return s
}

// waitFor waits at most so long for a state and reports whether it came.
func (p *program) waitFor(most time.Duration, ok func(model.Seen) bool) (s model.Seen, came bool) {
	p.d.t.Helper()
	late := time.After(most)
	for {
		p.mu.Lock()
		last, ended := p.last, p.ended
		found := p.count > 0 && ok(last)
		p.mu.Unlock()
		if found {
			return last, true
		}
		if ended {
			p.d.t.Fatalf("the program ended: %s", p.errs.String())
		}
		select {
		case <-p.change:
		case <-late:
			return last, false
		}
	}
}

func keys(m map[string]model.Rect) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	return out
}

// screen waits for a screen by name.
func (p *program) screen(name string) model.Seen {
	p.d.t.Helper()
	return p.wait("screen "+name, func(s model.Seen) bool { return s.Screen == name })
}

// click clicks the middle of a named target.
func (p *program) click(target string) {
	p.d.t.Helper()
	s := p.wait("target "+target, func(s model.Seen) bool { _, ok := s.Targets[target]; return ok })
	r := s.Targets[target]
	p.clickAt(r.X+r.W/2, r.Y+r.H/2)
}

func (p *program) clickAt(x, y float32) {
	p.d.t.Helper()
	p.d.tool("xdotool", "mousemove", "--window", p.window, strconv.Itoa(int(x)), strconv.Itoa(int(y)), "click", "1")
}

func (p *program) key(names ...string) {
	p.d.t.Helper()
	for _, n := range names {
		p.d.tool("xdotool", "key", "--clearmodifiers", n)
	}
}

func (p *program) typeText(s string) {
	p.d.t.Helper()
	p.d.tool("xdotool", "type", "--delay", "2", "--", s)
}

// kill ends the program at once, as a power cut would.
func (p *program) kill() {
	if p.cmd.ProcessState == nil {
		_ = p.cmd.Process.Kill()
		_ = p.cmd.Wait()
	}
}

// quit closes the window as a person would and waits for the program's end.
func (p *program) quit() {
	p.d.t.Helper()
	p.d.tool("xdotool", "windowclose", p.window)
	p.kill()
}

// shot saves a screenshot and gives its path.
func (d *desk) shot(name string) string {
	d.t.Helper()
	file := filepath.Join(d.shots, name+".png")
	d.tool("import", "-window", "root", file)
	return file
}

// readBack gives the text of a screenshot of the desk, in one line.
func (d *desk) readBack(name string) string {
	d.t.Helper()
	file := d.shot(name)
	// Twice the size: the recogniser is made for print at 300 dots an inch.
	big := strings.TrimSuffix(file, ".png") + "-big.png"
	d.tool("convert", file, "-resize", "200%", "-colorspace", "Gray", big)
	return strings.Join(strings.Fields(d.tool("tesseract", big, "stdout", "--psm", "11")), " ")
}

// trouble starts the program where it cannot open, and gives what the window
// says once it says that.
func (d *desk) trouble(t *testing.T, data, shot, says string) string {
	t.Helper()
	bin, err := built()
	require.NoError(t, err)
	c := exec.Command(bin, "--data", data)
	c.Env = d.env()
	require.NoError(t, c.Start())
	defer func() { _ = c.Process.Kill(); _ = c.Wait() }()
	window := strings.Fields(d.tool("xdotool", "search", "--sync", "--onlyvisible", "--pid", strconv.Itoa(c.Process.Pid)))[0]
	d.tool("xdotool", "windowactivate", "--sync", window)
	// The first frame may come after the window: read until words are there.
	for end := time.Now().Add(patience); ; {
		if text := d.readBack(shot); strings.Contains(text, says) || time.Now().After(end) {
			return text
		}
	}
}
