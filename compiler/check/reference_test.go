package check_test

import (
	"bytes"
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler/check"
)

var update = flag.Bool("update", false, "write spec/checks.md anew")

const reference = "../../spec/checks.md"

// The page of all findings says what the rules say today.
func TestReferenceIsCurrent(t *testing.T) {
	var b bytes.Buffer
	check.WriteReference(&b)
	if *update {
		require.NoError(t, os.WriteFile(reference, b.Bytes(), 0o644))
	}
	page, err := os.ReadFile(reference)
	require.NoError(t, err)
	require.True(t, b.String() == string(page), "spec/checks.md is not current: go test ./compiler/check -update")
	for _, r := range check.All {
		require.Contains(t, b.String(), "\n### "+r.Code+"\n")
	}
}

// inside are codes that no finding has: package quantity gives them to the
// passes, which say what is wrong under a code of their own.
var inside = map[string]string{
	"Q401": "U111 names the flours that do not add",
	"Q402": "U103 is said once a folder",
	"Q404": "a line that has no size is bought as it is written",
	"Q405": "D105 asks for a density, and only where one is needed",
	"Q406": "the line is bought by the piece",
	"Q407": "N143",
}

// Every code in the sources is explained, and every code that is explained is
// in the sources.
func TestEveryCodeIsExplained(t *testing.T) {
	code := regexp.MustCompile(`"([NQUDHPSAEMF]\d\d\d)"`)
	found := map[string]string{}
	for _, root := range []string{"../../lang", "../../compiler", "../../missing.go", "../../sizes.go"} {
		err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
				return err
			}
			if filepath.Base(filepath.Dir(name)) == "check" { // where codes are explained
				return nil
			}
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			for _, m := range code.FindAllStringSubmatch(string(text), -1) {
				found[m[1]] = name
			}
			return nil
		})
		require.NoError(t, err)
	}
	require.Greater(t, len(found), 100)
	for c, file := range found {
		if inside[c] == "" {
			require.NotNil(t, check.Find(c), "%s, used in %s, is not explained", c, file)
		}
	}
	for _, r := range check.All {
		_, said := found[r.Code]
		if r.Check != nil || strings.HasPrefix(r.Code, "E90") { // made in this package
			require.False(t, said, "%s is made by a rule, and used in %s too", r.Code, found[r.Code])
			continue
		}
		require.True(t, said, "%s is explained, and nothing reports it", r.Code)
	}
	for c := range inside {
		require.Contains(t, found, c)
		require.Nil(t, check.Find(c))
	}
}

// The list of `tamis explain` has a line for every rule, in order.
func TestTitles(t *testing.T) {
	var b bytes.Buffer
	check.WriteTitles(&b)
	var codes []string
	for _, m := range regexp.MustCompile(`(?m)^  ([A-Z]\d\d\d)  \S`).FindAllStringSubmatch(b.String(), -1) {
		codes = append(codes, m[1])
	}
	var all []string
	for _, r := range check.All {
		all = append(all, r.Code)
	}
	require.Equal(t, all, codes)
	byFamily := slices.Clone(codes)
	slices.SortStableFunc(byFamily, func(a, b string) int {
		return slices.Index(check.Families, check.Find(a).Family) - slices.Index(check.Families, check.Find(b).Family)
	})
	require.Equal(t, codes, byFamily, "the families stay together")
}

func TestVisible(t *testing.T) {
	require.Equal(t, "Ana‹U+200B› Roe‹byte E8›\n‹tab›é", check.Visible("Ana\u200b Roe\xe8\n\té"))
}

func TestWriteRule(t *testing.T) {
	var b bytes.Buffer
	check.WriteRule(&b, check.Find("u203"))
	require.Equal(t, `U203  More is used than is left.
names and use · error

A step asks for more of a line than the steps before it have left.
Why  The cook runs out at the stove.
Try  Gather more, or take less here.

This has it, at 8:15:

  dish Buttered leeks
    serves 4
    gather
      800 g    leeks
      40 g     butter
    method
      - Melt 30 g of the butter and soften the leeks. | work 10 min
      - Stir in 20 g of the butter. | work 1 min

This has not:

  dish Buttered leeks
    serves 4
    gather
      800 g    leeks
      40 g     butter
    method
      - Melt 30 g of the butter and soften the leeks. | work 10 min
      - Stir in 10 g of the butter. | work 1 min

Source: common practice, no source.
`, b.String())
}
