package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"
)

// countdown is a context that ends when it has been asked so often.
type countdown struct {
	context.Context
	left atomic.Int64
	end  context.CancelFunc
}

func after(n int) *countdown {
	c := &countdown{}
	c.Context, c.end = context.WithCancel(context.Background())
	c.left.Store(int64(n))
	return c
}

func (c *countdown) Err() error {
	if c.left.Add(-1) < 0 {
		c.end()
	}
	return c.Context.Err()
}

const stopText = "tamis: stopped; nothing was written\n"

// A command that is stopped at any moment at all says so in one sentence, and
// has written all or nothing.
func TestStoppedAtAnyMoment(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "in", "leeks.tamis"), twoDishes, 0o644)
	for _, args := range [][]string{
		{"build", filepath.Join(dir, "in"), "--booklet", "--to", "pdf,html,json,text"},
		{"check", filepath.Join(dir, "in")},
		{"plan", filepath.Join(dir, "in"), "--late", "A1 10 min"},
	} {
		code, stops := exitStopped, 0
		for n := 0; code == exitStopped; n++ {
			require.Less(t, n, 20000, "it never ends")
			out := filepath.Join(dir, "out")
			var o, e bytes.Buffer
			all := args
			if args[0] == "build" {
				all = append(args[:len(args):len(args)], "-o", out)
			}
			code = run(after(n), all, strings.NewReader(""), &o, &e)
			if code != exitStopped {
				break
			}
			stops++
			require.True(t, strings.HasSuffix(e.String(), stopText), "%s after %d: %q", args[0], n, e.String())
			require.NotContains(t, e.String(), "context", "no word of ours")
			if args[0] == "build" {
				require.NoDirExists(t, out, "after %d", n)
			}
			if n > 60 {
				n += n / 8
			}
		}
		require.Greater(t, stops, 3, "%s hears it on its way", args[0])
		require.LessOrEqual(t, code, exitFaults, args[0])
	}
	require.Equal(t, []string{"supper.html", "supper.json", "supper.pdf", "supper.txt"}, names(t, filepath.Join(dir, "out")))
}

const twoDishes = `menu Supper
  covers 4
  on the table 2027-09-19 19:00
  at Home
  course Main
    Leeks
    Peas

kitchen Home
  rules UK
  cooks Ada
  rings 2

` + goodLeeks + "\n" + `dish Peas
  serves 4
  gather
    600 g    peas
    20 g     butter
  method
    - Cook the peas in the butter until soft.
      | ring low | work 2 min | leave 6 min
  serve hot, within 10 min
`

const goodLeeks = `dish Leeks
  serves 4
  gather
    800 g    leeks
    40 g     butter
  method
    - Melt the butter and cook the leeks in it until soft.
      | ring low | work 3 min | leave 15 min
  serve hot, within 10 min
`

// Files that are written one by one are each as they were or as they shall be,
// and it is said how many are.
func TestFmtStopped(t *testing.T) {
	untidy := strings.Replace(goodLeeks, "800 g    leeks", "800 g leeks", 1)
	seen := map[int]bool{}
	for n, code := 0, exitStopped; code == exitStopped; n++ {
		dir := t.TempDir()
		for i := range 3 {
			put(t, filepath.Join(dir, fmt.Sprintf("%d.tamis", i)), untidy, 0o644)
		}
		var o, e bytes.Buffer
		code = run(after(n), []string{"fmt", "-w", dir}, strings.NewReader(""), &o, &e)
		done := 0
		for _, name := range names(t, dir) {
			text, err := os.ReadFile(filepath.Join(dir, name))
			require.NoError(t, err)
			require.Contains(t, []string{untidy, goodLeeks}, string(text))
			if string(text) == goodLeeks {
				done++
			}
		}
		seen[done] = true
		if code == exitStopped {
			want := []string{stopText, "tamis: stopped; one file had been written, and is whole\n", "tamis: stopped; 2 files had been written, and are whole\n", "tamis: stopped; 3 files had been written, and are whole\n"}[done]
			require.Equal(t, want, e.String())
		}
	}
	require.True(t, seen[0] && seen[1] && seen[2] && seen[3], "stopped before, between and after: %v", seen)
}

// Work that waits, for a keyboard that nobody touches, is left behind.
func TestStoppedAtTheKeyboard(t *testing.T) {
	keys, hand := io.Pipe()
	defer hand.Close()
	ctx, stop := context.WithCancel(t.Context())
	var o, e bytes.Buffer
	code := make(chan int)
	go func() { code <- run(ctx, []string{"fmt", "-"}, keys, &o, &e) }()
	_, err := hand.Write([]byte("dish Leeks\n")) // it reads: this returns when it has
	require.NoError(t, err)
	stop()
	require.Equal(t, exitStopped, <-code)
	require.Equal(t, stopText, e.String())
	require.Empty(t, o.String())
}

// A build that waits for another to be done is interrupted as a cook would.
func TestInterrupt(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a program cannot press Ctrl-C for another here")
	}
	dir := t.TempDir()
	put(t, filepath.Join(dir, "in.tamis"), twoDishes, 0o644)
	out := filepath.Join(dir, "out")
	require.NoError(t, os.Mkdir(out, 0o755))
	unlock, err := lockFolder(t.Context(), out)
	require.NoError(t, err)
	self, err := os.Executable()
	require.NoError(t, err)
	c := exec.Command(self, "build", filepath.Join(dir, "in.tamis"), "-o", out, "--booklet", "--to", "pdf")
	c.Args[0] = "tamis" // TestMain then runs the command
	said, err := c.StderrPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	lines, last := bufio.NewScanner(said), ""
	for lines.Scan() {
		if last = lines.Text(); strings.Contains(last, "fold and staple") { // all is laid out; the lock is next
			require.NoError(t, c.Process.Signal(os.Interrupt))
		}
	}
	err = c.Wait()
	var code *exec.ExitError
	require.True(t, errors.As(err, &code), "%v", err)
	require.Equal(t, exitStopped, code.ExitCode())
	require.Equal(t, strings.TrimSpace(stopText), last)
	unlock()
	require.Empty(t, names(t, out), "no file, and nothing half done")
}
