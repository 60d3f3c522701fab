package main

import (
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the expected text of testdata/cli")

func TestMain(m *testing.M) {
	// The commits of this repository are not those of the examples' cooks.
	// A script's command has that said already.
	if root, err := os.Getwd(); err == nil && os.Getenv("GIT_CEILING_DIRECTORIES") == "" {
		os.Setenv("GIT_CEILING_DIRECTORIES", root)
	}
	testscript.Main(m, map[string]func(){"tamis": main})
}

// The scripts of testdata/cli drive the real command.
func TestCommand(t *testing.T) {
	root, err := os.Getwd()
	require.NoError(t, err)
	testscript.Run(t, testscript.Params{
		Dir:           filepath.Join("testdata", "cli"),
		UpdateScripts: *update,
		Setup: func(e *testscript.Env) error {
			e.Setenv("EXAMPLES", filepath.Join(root, "examples"))
			e.Setenv("FIXTURE", filepath.Join(root, "testdata", "fixture"))
			e.Setenv("GIT_CEILING_DIRECTORIES", root)
			e.Setenv("NO_COLOR", "1")
			return nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"fill": fill,
			"same": same,
			"page": pageCode, "everyflag": everyFlag,
		},
	})
}

// fill FILE N TEXT writes TEXT N times into FILE.
func fill(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: fill FILE N TEXT")
	}
	n := 0
	for _, c := range args[1] {
		n = n*10 + int(c-'0')
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), []byte(strings.Repeat(args[2], n)), 0o644))
}

// pageCode, page PAGE HEADING FILE writes into FILE the first block of code below a heading of one
// of our pages, so that what it tells people to do is done.
func pageCode(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: page PAGE HEADING FILE")
	}
	text, err := os.ReadFile(filepath.Join(repository, filepath.FromSlash(args[0])))
	ts.Check(err)
	_, below, ok := strings.Cut(string(text), "\n## "+args[1]+"\n")
	_, block, begun := strings.Cut(below, "\n```sh\n")
	block, _, ends := strings.Cut(block, "\n```")
	if !ok || !begun || !ends {
		ts.Fatalf("%s has no code below %q", args[0], args[1])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[2]), []byte(block+"\n"), 0o644))
}

// everyFlag, everyflag FILE holds a manual page to the table of commands.
func everyFlag(ts *testscript.TestScript, neg bool, args []string) {
	text := ts.ReadFile(args[0])
	for _, c := range newApp(nil, io.Discard, io.Discard).root().Commands() {
		if !c.IsAvailableCommand() {
			continue
		}
		_, own, ok := strings.Cut(text, ".SS \"tamis "+c.Name())
		own, _, _ = strings.Cut(own, "\n.SS ")
		c.LocalFlags().VisitAll(func(f *pflag.Flag) {
			ok = ok && (f.Hidden || strings.Contains(own, ".B "+roff(strings.TrimSpace(strings.SplitN(flagNames(f), " ", 2)[0]))))
		})
		if !ok {
			ts.Fatalf("%s, or a flag of it, is not in %s", c.Name(), args[0])
		}
	}
}

func flagNames(f *pflag.Flag) string {
	name, _ := flagWords(f)
	return strings.TrimSpace(name)
}

// repository is the folder of this package.
var repository, _ = os.Getwd()

// same DIR DIR tells whether two folders hold the same files with the same bytes.
func same(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: same DIR DIR")
	}
	names, err := os.ReadDir(ts.MkAbs(args[0]))
	ts.Check(err)
	if len(names) == 0 {
		ts.Fatalf("%s is empty", args[0])
	}
	for _, f := range names {
		a, err := os.ReadFile(filepath.Join(ts.MkAbs(args[0]), f.Name()))
		ts.Check(err)
		b, err := os.ReadFile(filepath.Join(ts.MkAbs(args[1]), f.Name()))
		ts.Check(err)
		if string(a) != string(b) {
			ts.Fatalf("%s differs", f.Name())
		}
	}
}
