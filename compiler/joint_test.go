package compiler_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tamis/compiler"
)

// One joint of twice the weight roasts for longer, and two joints do not: who makes a dish
// over with a time that does not grow is asked which it is. A quarter more or less is asked
// about, what is less is not, nor what is cut up, counted, or timed by its weight.
func TestAJointOfAnotherSize(t *testing.T) {
	amountBefore := regexp.MustCompile(`^[\d.]+ (x [\d.]+ )?((kg|lb) )?`)
	asked := func(covers int, line, margin string, before ...string) bool {
		steps := ""
		for _, s := range before {
			steps += "    - " + s + "\n      | work 10 min\n"
		}
		r := compileText(t, fmt.Sprintf("menu Sunday\n  covers %d\n  course Main\n    Roast\ndish Roast\n  serves 8\n  gather\n    %s\n  method\n%s    - Roast the meat.\n      | %s | uses %s\n  serve hot\n",
			covers, line, steps, margin, amountBefore.ReplaceAllString(strings.Split(line, ",")[0], "")), compiler.Options{NoPlan: true, NoPages: true})
		require.False(t, r.Diags.HasErrors(), "%v", r.Diags.Sorted())
		for _, d := range r.Diags.Sorted() {
			if d.Code == "H141" {
				require.Contains(t, margin, d.At.Span.Text(), "it points at the time")
				return true
			}
		}
		return false
	}
	const oven = "oven 180 C | leave 2 h | core 75 C"
	for covers, want := range map[int]bool{4: true, 6: true, 7: false, 8: false, 9: false, 10: false, 11: true, 16: true} {
		require.Equal(t, want, asked(covers, "2 kg beef joint", oven), "%d of 8", covers)
	}
	for _, one := range []string{"2 kg lamb shoulder", "4 lb pork loin", "1.6 kg chicken"} {
		require.True(t, asked(16, one, oven), one)
		require.True(t, asked(16, one, "ring low | leave 2 h | core 75 C"), one)
	}
	for _, many := range []string{"2 x 1 kg lamb shoulder", "1 kg lamb shoulder, diced", "1 kg minced beef", "2 chickens", "2 kg carrots"} {
		require.False(t, asked(16, many, oven), many)
	}
	require.False(t, asked(16, "2 kg beef joint", "oven 180 C | leave 20 min plus 20 min per 500 g beef joint | core 75 C"), "by its weight")
	require.False(t, asked(16, "2 kg beef joint", "oven 220 C | leave 29 min | core 75 C"), "no time of a joint")
	require.False(t, asked(16, "2 kg beef joint", oven, "Cut the beef joint into chunks."), "cut up first")
}

// What cooks under pressure has a caution, by whatever name; what is pressed or has no
// pressure has none, and who writes a caution has read it.
func TestWhatCooksUnderPressure(t *testing.T) {
	asked := func(step string) bool {
		return strings.Contains(strings.Join(codesOf(compileText(t, "dish Chickpeas\n  serves 4\n  gather\n    300 g chickpeas, soaked\n    1 litre water\n  method\n    - "+step+"\n", compiler.Options{NoPlan: true, NoPages: true})), " "), "S134")
	}
	for _, under := range []string{
		"Cook the chickpeas in the water in the pressure cooker.\n      | leave 40 min",
		"Pressure-cook the chickpeas in the water.\n      | leave 40 min",
		"Bring the chickpeas and the water up to pressure.\n      | ring high | leave 40 min",
		"Cook the chickpeas in the water at 15 psi.\n      | ring high | leave 40 min",
		"Cook the chickpeas in the water for three whistles.\n      | ring high | leave 20 min",
		"Cook the chickpeas in the water, then let out the steam by quick release.\n      | leave 40 min",
	} {
		require.True(t, asked(under), under)
	}
	for _, not := range []string{
		"Press the chickpeas through a sieve with the water.\n      | work 10 min",
		"Simmer the chickpeas in the water in the slow cooker.\n      | leave 8 h",
		"Without pressure of time, simmer the chickpeas in the water.\n      | ring low | leave 1 h",
		"Cook the chickpeas in the water in the pressure cooker.\n      | leave 40 min | caution let the steam out first",
	} {
		require.False(t, asked(not), not)
	}
}
