//go:build unix

package main

import (
	"bytes"
	"context"
	"net"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"tamis/lang/diag"
)

const goodDish = `dish Leeks
  serves 4
  gather
    800 g    leeks
    40 g     butter
  method
    - Melt the butter and cook the leeks in it until soft.
      | ring low | work 3 min | leave 15 min
  serve hot, within 10 min
`

// hostile is a folder of all that may lie about beside one good recipe.
func hostile(t *testing.T) string {
	t.Helper()
	dir, err := os.MkdirTemp("", "h") // the path of a socket is short
	require.NoError(t, err)
	t.Cleanup(func() { os.RemoveAll(dir) })
	at := func(name string) string { return filepath.Join(dir, name) }
	put(t, at("good.tamis"), goodDish, 0o644)
	for link, to := range map[string]string{
		".#good.tamis": "cook@nowhere.1234", // the lock of an editor
		"gone.tamis":   "nowhere.tamis",
		"ring.tamis":   "ring.tamis",
		"zero.tamis":   "/dev/zero",
		"null.tamis":   "/dev/null",
		"tty.tamis":    "/dev/tty",
		"house.tamis":  "..",
		"up":           "..",
	} {
		require.NoError(t, os.Symlink(to, at(link)))
	}
	put(t, at("._good.tamis"), "\x00\x05\x16\x07\x00\x02", 0o644) // the shadow of a Mac
	put(t, at(".tamis-123"), "half", 0o644)
	put(t, at(".git/x.tamis"), "dish !", 0o644)
	put(t, at("folder.tamis/deep.tamis"), strings.Replace(goodDish, "Leeks", "Other leeks", 1), 0o644)
	put(t, at("huge.tamis"), strings.Repeat("x", 9<<20), 0o644)
	put(t, at("shut.tamis"), goodDish, 0)
	require.NoError(t, os.Remove(at("shut.tamis"))) // root may read it: a pipe stands for it
	for _, fifo := range []string{"pipe.tamis", "shut.tamis", "sub/pipe.tamis"} {
		require.NoError(t, os.MkdirAll(filepath.Dir(at(fifo)), 0o755))
		require.NoError(t, syscall.Mkfifo(at(fifo), 0o644))
	}
	if l, err := net.Listen("unix", at("socket.tamis")); err == nil {
		t.Cleanup(func() { l.Close() })
	}
	// Names that not every disk takes.
	for _, name := range []string{"ring\x1b[2Jbell\x07.tamis", "turn\u202esimat.tamis", "byte\xff.tamis", "tag\U000e0041.tamis"} {
		_ = os.WriteFile(at(name), []byte("dish \x1b]0;owned\x07\u202e\U000e0041 "+name+"\n  serves 4\n  about\n    \x1b[2J\u009b2J\x9b\n"), 0o644)
	}
	return dir
}

// shownPlainly tells that nothing reaches a terminal that it obeys.
func shownPlainly(t *testing.T, texts ...string) {
	t.Helper()
	for _, s := range texts {
		require.True(t, utf8.ValidString(s))
		require.Equal(t, diag.Visible(s), s)
	}
}

func call(args ...string) (code int, out, errOut string) {
	var o, e bytes.Buffer
	code = run(context.Background(), args, strings.NewReader(""), &o, &e)
	return code, o.String(), e.String()
}

// One good recipe among all of it is read; nothing hangs, nothing is believed,
// nothing is touched.
func TestHostileFolder(t *testing.T) {
	dir := hostile(t)
	good := filepath.Join(dir, "good.tamis")

	code, out, errOut := call("check", good)
	require.Equal(t, exitClean, code, errOut)
	require.NotContains(t, errOut, "pipe", "what lies beside one file is no concern")
	shownPlainly(t, out, errOut)

	code, out, errOut = call("check", dir)
	require.Equal(t, exitFaults, code, "names and texts full of controls are faults")
	for _, want := range []string{
		`gone.tamis" is left out: it is a link that leads nowhere`, `ring.tamis" is left out`, `zero.tamis" is left out: it is a pipe, a device or a socket`,
		`pipe.tamis" is left out: it is a pipe`, `huge.tamis" is left out: it is 9 MB long`, `house.tamis" is left out: it is a link to a folder`,
	} {
		require.Contains(t, strings.Join(strings.Fields(errOut), " "), want)
	}
	for _, quiet := range []string{".#good", "._good", ".git", "half"} {
		require.NotContains(t, errOut, quiet)
	}
	shownPlainly(t, out, errOut)

	for _, args := range [][]string{
		{"check", "--read", dir},
		{"check", "--format", "json", dir},
		{"check", "--format", "sarif", dir},
		{"check", "--fix", "--dry-run", good},
		{"plan", dir},
		{"build", dir, "-o", filepath.Join(dir, "out")},
		{"fmt", "-l", dir},
	} {
		_, out, errOut = call(args...)
		shownPlainly(t, errOut)
		if args[1] != "--fix" {
			shownPlainly(t, out)
		}
	}
	for _, bad := range []string{"pipe.tamis", "zero.tamis", "gone.tamis", "huge.tamis", "socket.tamis", "ring.tamis"} {
		for _, command := range []string{"check", "build", "plan", "fmt"} {
			code, _, errOut = call(command, filepath.Join(dir, bad))
			require.Equal(t, exitTrouble, code, "%s %s: %s", command, bad, errOut)
			require.Contains(t, errOut, bad)
		}
	}
	code, _, errOut = call("build", good, "-o", filepath.Join(dir, "out"), "--to", "text")
	require.Equal(t, exitClean, code, errOut)
	require.Equal(t, []string{"leeks.txt"}, names(t, filepath.Join(dir, "out")))
	holds(t, good, goodDish)
}

// fmt sees to the good files of such a folder, and keeps what it is not asked for.
func TestFmtInAHostileFolder(t *testing.T) {
	dir := hostile(t)
	loose := strings.Replace(goodDish, "800 g    leeks", "800g leeks", 1)
	for _, name := range []string{"good.tamis", ".git/x.tamis", "z/last.tamis"} {
		put(t, filepath.Join(dir, name), loose, 0o644)
	}
	code, _, errOut := call("fmt", "-w", dir)
	require.Equal(t, exitTrouble, code, "some could not be read")
	require.Contains(t, errOut, "huge.tamis")
	holds(t, filepath.Join(dir, "good.tamis"), goodDish)
	holds(t, filepath.Join(dir, "z", "last.tamis"), goodDish)
	holds(t, filepath.Join(dir, ".git", "x.tamis"), loose)
	to, err := os.Readlink(filepath.Join(dir, "gone.tamis"))
	require.NoError(t, err)
	require.Equal(t, "nowhere.tamis", to)
}

// Prose and lists that no one wrote are answered, within a second or so of
// processor time each.
func TestHostileProse(t *testing.T) {
	var deep strings.Builder
	for i := range 2000 {
		deep.WriteString(strings.Repeat(" ", 4+2*i) + "- x\n")
	}
	for name, prose := range map[string]string{
		"brackets": strings.Repeat("    "+strings.Repeat("[", 60_000)+"\n", 30), "a deep list": deep.String(),
	} {
		file := filepath.Join(t.TempDir(), "x.tamis")
		put(t, file, strings.Replace(goodDish, "  gather\n", "  about\n"+prose+"  gather\n", 1), 0o644)
		var from, to syscall.Rusage
		require.NoError(t, syscall.Getrusage(syscall.RUSAGE_SELF, &from))
		code, _, errOut := call("build", file, "-o", t.TempDir())
		require.NoError(t, syscall.Getrusage(syscall.RUSAGE_SELF, &to))
		require.Equal(t, exitFaults, code)
		require.Contains(t, errOut, "the prose of Leeks cannot be set", name)
		took := to.Utime.Nano() + to.Stime.Nano() - from.Utime.Nano() - from.Stime.Nano()
		require.Less(t, took, int64(3e9), "%s: nanoseconds of processor time", name)
	}
}
