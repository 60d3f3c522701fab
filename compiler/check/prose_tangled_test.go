package check_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tamis/compiler/check"
	"tamis/compiler/sheets/build"
)

// What is refused, and that what is let through is read in good time: a second
// of processor time for a file as long as may be, and so far less for one.
func TestTangledProse(t *testing.T) {
	list := func(deep int) string {
		var b strings.Builder
		for i := range deep {
			b.WriteString(strings.Repeat("  ", i) + "- x\n")
		}
		return b.String()
	}
	for name, text := range map[string]string{
		"brackets": strings.Repeat("[", 1_800_000), "brackets in lines": strings.Repeat(strings.Repeat("[", 60)+"\n", 100),
		"a deep list": list(2000), "a list of 30": list(30), "deep on a line": strings.Repeat("- ", 2000) + "x", "quotes": strings.Repeat(">", 3000) + " x",
		"stars": strings.Repeat("*a ", 3000), "a long paragraph": strings.Repeat("leek ", 10_000), "very long": strings.Repeat("leek\n\n", 100_000),
		"numbers": strings.Repeat("1. ", 300) + "x",
	} {
		require.NotEmpty(t, check.Tangled(text), name)
	}
	for name, text := range map[string]string{
		"nothing": "", "a headnote": "As *we* had it, in [the valley](https://example.org): 2 - 3 cups\n\n- one\n  - two\n", "a list of 15": list(15),
		"a rule": "----------------------------------------------------\n", "figures": "12 14 16 18\n", "stars": "* * *\n",
		"indented": strings.Repeat(" ", 60) + "Leeks\n",
	} {
		require.Empty(t, check.Tangled(text), name)
	}
}

// Every kind of mark, in paragraphs just within the bounds, to the longest prose.
func TestProseWithinBoundsIsQuick(t *testing.T) {
	for _, unit := range []string{"[", "![", "[a](", "*a ", "**a_", "`", "<a ", "<!-- ", "&a", "](", "[[a]", "\\[", "a_b*"} {
		n := 480 / max(1, strings.Count(unit, "[")+strings.Count(unit, "]")+strings.Count(unit, "*")+strings.Count(unit, "_")+strings.Count(unit, "`")+strings.Count(unit, "<")+strings.Count(unit, "&"))
		paragraph := strings.Repeat(unit, n) + "\n\n"
		text := strings.Repeat(paragraph, (250<<10)/len(paragraph))
		require.Empty(t, check.Tangled(text), unit)
		before := cpuTime()
		build.Markdown(text)
		if took := cpuTime() - before; took > time.Second {
			t.Errorf("%q: %s of processor time", unit, took)
		}
	}
}
