package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// clock is a progress whose seconds pass when the test says so. asked is how
// often it was started, stopped how often it was stopped.
type clock struct {
	screen         bytes.Buffer
	seconds        chan time.Time
	asked, stopped int
}

func (c *clock) progress() progress {
	c.seconds = make(chan time.Time)
	return progress{to: &c.screen, tick: func() (<-chan time.Time, func()) {
		c.asked++
		return c.seconds, func() { c.stopped++ }
	}}
}

// line is what stands on the line of a terminal that was sent some text.
func line(sent string) string {
	var cells []rune
	at := 0
	for _, r := range sent {
		if r == '\r' {
			at = 0
			continue
		}
		if at == len(cells) {
			cells = append(cells, ' ')
		}
		cells[at] = r
		at++
	}
	return strings.TrimRight(string(cells), " ")
}

// What takes long says so each second, and leaves nothing behind.
func TestProgress(t *testing.T) {
	var c clock
	p := c.progress()
	n, err := shown(context.Background(), p, "reading and planning", func() (int, error) {
		for range 11 {
			c.seconds <- time.Time{}
		}
		return 7, nil
	})
	require.NoError(t, err)
	require.Equal(t, 7, n)
	require.Equal(t, 1, c.stopped)
	sent := c.screen.String()
	require.Equal(t, 11, strings.Count(sent, "reading and planning, "))
	before, _, ok := strings.Cut(sent, "\rreading and planning, 11 s")
	require.True(t, ok, "%q", sent)
	require.Equal(t, "reading and planning, 10 s", line(before))
	require.Empty(t, line(sent), "%q", sent)
	require.True(t, strings.HasSuffix(sent, "\r"), "what follows begins at the left")
	require.NotContains(t, sent, "\n")
	require.NotContains(t, sent, "\x1b")

	c.screen.Reset()
	_, err = shown(context.Background(), p, "reading and planning", func() (int, error) { return 0, nil })
	require.NoError(t, err)
	require.Empty(t, c.screen.String(), "what takes less than a second says nothing")
}

// Ctrl-C in the midst of it: the line is gone before the last word is said, with
// the ^C that the terminal wrote behind it.
func TestProgressStopped(t *testing.T) {
	var c clock
	p := c.progress()
	ctx, stop := context.WithCancel(context.Background())
	never := make(chan struct{})
	defer close(never)
	_, err := shown(ctx, p, "setting the pages", func() (int, error) {
		c.seconds <- time.Time{}
		c.seconds <- time.Time{}
		stop()
		<-never
		return 0, nil
	})
	require.True(t, stopped(err), "%v", err)
	before, end, _ := strings.Cut(c.screen.String(), "setting the pages, 2 s")
	require.Equal(t, "tamis: stopped", line(before+"setting the pages, 2 s^C"+end+"tamis: stopped"))
}

// Reading, setting and planning anew are shown; a pipe and a file hear nothing.
func TestProgressIsShownWhereWorkIsDone(t *testing.T) {
	dir := t.TempDir()
	put(t, filepath.Join(dir, "in", "leeks.tamis"), twoDishes, 0o644)
	for _, c := range []struct {
		args []string
		want int
	}{
		{[]string{"check", filepath.Join(dir, "in")}, 1},
		{[]string{"build", filepath.Join(dir, "in"), "-o", filepath.Join(dir, "out"), "--to", "pdf,text"}, 3},
		{[]string{"plan", filepath.Join(dir, "in"), "--late", "A1 10 min"}, 2},
		{[]string{"fmt", filepath.Join(dir, "in")}, 1},
	} {
		var out, said bytes.Buffer
		var k clock
		app := newApp(strings.NewReader(""), &out, &said)
		require.Nil(t, app.progress.to, "a buffer is no terminal")
		app.progress = k.progress()
		root := app.root()
		root.SetArgs(c.args)
		require.NoError(t, root.ExecuteContext(context.Background()), "%s", &said)
		require.Equal(t, c.want, k.asked, "%v", c.args)
		require.Equal(t, c.want, k.stopped, "%v", c.args)
	}
	from, to, err := os.Pipe()
	require.NoError(t, err)
	defer from.Close()
	defer to.Close()
	require.Nil(t, newApp(nil, to, to).progress.to, "a pipe is no terminal")
}
