package check_test

import (
	"context"
	"fmt"
	"io/fs"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"

	"tamis/compiler"
	"tamis/compiler/check"
	"tamis/compiler/load"
	"tamis/lang/diag"
)

// exampleFile is what an example of one file is called.
const exampleFile = "example.tamis"

// folder turns an example into files: a folder in txtar form, or one file.
func folder(text string) fs.FS {
	out := fstest.MapFS{}
	if !strings.HasPrefix(text, "-- ") {
		out[exampleFile] = &fstest.MapFile{Data: []byte(text)}
		return out
	}
	for _, f := range txtar.Parse([]byte(text)).Files {
		out[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	return out
}

// findings checks an example as `tamis check` does.
func findings(t *testing.T, text string) []diag.Diagnostic {
	t.Helper()
	tree, err := load.FS(folder(text), ".", "", "")
	require.NoError(t, err)
	return compiler.Compile(context.Background(), tree, compiler.Options{}).Diags.Sorted()
}

// place is where a finding is, as Rule.At says it.
func place(d diag.Diagnostic) string {
	if d.At.Span.IsZero() {
		return ""
	}
	at := d.At.Span.Position()
	if name := d.At.Span.File.Name; name != exampleFile {
		return fmt.Sprintf("%s:%d:%d", name, at.Line, at.Column)
	}
	return fmt.Sprintf("%d:%d", at.Line, at.Column)
}

// replaced puts texts in place of others, in pairs.
func replaced(text string, pairs ...string) string {
	return strings.NewReplacer(pairs...).Replace(text)
}

func show(list []diag.Diagnostic) string {
	var b strings.Builder
	for _, d := range list {
		fmt.Fprintf(&b, "%s %s[%s] %s\n", place(d), d.Severity, d.Code, d.Message)
	}
	return b.String()
}

// Every rule says all that `tamis explain` prints, under a code of its family.
func TestRulesAreWhole(t *testing.T) {
	code := regexp.MustCompile(`^[A-Z]\d\d\d$`)
	seen := map[string]bool{}
	for _, r := range check.All {
		require.Regexp(t, code, r.Code)
		require.False(t, seen[r.Code], "%s is there twice", r.Code)
		seen[r.Code] = true
		require.Contains(t, r.Family.Letters(), r.Code[:1], r.Code)
		for field, text := range map[string]string{"Title": r.Title, "What": r.What, "Why": r.Why, "Fix": r.Fix} {
			require.NotEmpty(t, text, "%s has no %s", r.Code, field)
			require.NotContains(t, text, "\n", "%s: %s", r.Code, field)
			require.NoError(t, tone(text), "%s: %s", r.Code, field)
			require.Contains(t, ".?!", text[len(text)-1:], "%s: full stop of %s: %q", r.Code, field, text)
			require.Equal(t, diag.Sentence(text), text, "%s: capital of %s", r.Code, field)
		}
		require.NotEmpty(t, r.Sources, r.Code)
		for _, s := range r.Sources {
			require.NotEmpty(t, strings.TrimSpace(s), r.Code)
		}
		if r.Check != nil {
			require.NotEmpty(t, r.Bad, r.Code)
		}
	}
}

// What a rule calls bad has its finding at its place, and no other error; what
// it calls good has it not, and no error.
func TestRuleExamples(t *testing.T) {
	for _, r := range check.All {
		t.Run(r.Code, func(t *testing.T) {
			if r.Bad == "" {
				require.Empty(t, r.Good)
				return
			}
			require.NotEmpty(t, r.Good)
			var at []string
			bad := findings(t, r.Bad)
			for _, d := range bad {
				require.NoError(t, tone(d.Message), d.Code)
				require.NotRegexp(t, `\.$`, d.Message)
				if d.Code == r.Code {
					at = append(at, place(d))
					continue
				}
				if r.Code != "E902" { // which is about an error
					require.Less(t, d.Severity, diag.Error, "another fault in the bad text:\n%s", show(bad))
				}
			}
			require.Contains(t, at, r.At, "the bad text, %s:\n%s", r.Title, show(bad))
			good := findings(t, r.Good)
			for _, d := range good {
				require.NotEqual(t, r.Code, d.Code, "the good text:\n%s", show(good))
				require.Less(t, d.Severity, diag.Error, "the good text:\n%s", show(good))
			}
		})
	}
}

var (
	promise = regexp.MustCompile(`(?i)\bsafe(ly)?\b|\bfree from\b|-free\b`)
	blame   = regexp.MustCompile(`(?i)\byou (must|should|have to|forgot|failed)\b|\byour (mistake|error|fault)\b|\binvalid\b|\billegal\b|!`)
)

// tone finds words that a message must not have: promises that food is
// harmless, and blame. A message ends without a full stop.
func tone(text string) error {
	if m := promise.FindString(text); m != "" {
		return fmt.Errorf("%q promises something: %s", m, text)
	}
	if m := blame.FindString(text); m != "" {
		return fmt.Errorf("%q blames: %s", m, text)
	}
	return nil
}
