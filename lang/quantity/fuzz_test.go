package quantity

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// FuzzRead throws bytes at every reader: none may panic or read beyond the
// text, every problem lies within it, and what was read without complaint is
// written and read again without change.
func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"250 g flour", "2 x 400 g tins tomatoes", "1 1/2-inch piece ginger", "900 g (2 lb) beef", "120 g per cover plus 200 g butter",
		"1 cup plus 2 tbsp oil", "2–3 cloves garlic", "½ lemon", "1⁄2", "1,234,567 g x", "2 #10 cans tomatoes", "a heaped tbsp salt",
		"35 to 40 min", "2 h, up to 1 day", "3 days to 8 weeks", "at least 2 h", "1h20", "180 to 200 C", "-18 °C", "fan 180 C", "gas 1/2",
		"moderately hot", "10000000000000000000000000", "1/0", "1.2.3", "200g/7oz flour", "two onions", "about 200 g x", "0 g x", "\xff\xfe", "1 \xe2\x81", "65 % water",
		"0X!000000000", "900 g (3 lb) ", // once read as amounts without a complaint
	} {
		f.Add(s, false)
		f.Add(s, true)
	}
	frond := NewMeasure("frond", "")
	f.Fuzz(func(t *testing.T, text string, odd bool) {
		opt := Options{DecimalComma: odd, Alone: odd, System: US, Measures: map[string]*Unit{"frond": frond, "fronds": frond}}
		prose := Options{Prose: true}
		within := func(n int, problems []Problem) {
			require.True(t, 0 <= n && n <= len(text))
			for _, p := range problems {
				require.True(t, 0 <= p.Start && p.Start <= p.End && p.End <= len(text), "%q: %+v", text, p)
				require.NotEmpty(t, p.Message)
				require.NotEmpty(t, p.Code)
			}
		}
		a, n, problems := ReadAmount(text, opt)
		within(n, problems)
		if n > 0 && len(problems) == 0 {
			again, m, more := ReadAmount(a.Text(opt.DecimalComma)+" zest", opt)
			require.Empty(t, more, "%q -> %q", text, a)
			require.Equal(t, len(a.Text(opt.DecimalComma)), m, "%q -> %q", text, a)
			require.True(t, a.Equal(again), "%q -> %q -> %q", text, a, again)
		}
		q, p := a.Quantity(US, 7)
		if p == nil {
			_ = q.Print(Style{System: US, Glyphs: true})
			_ = Round(q, Style{System: Imperial})
		}
		a, n, problems = ReadAmount(text, prose)
		within(n, problems)
		require.Empty(t, problems)
		_ = a.Print(Style{})

		_, n, problems = ReadMeasure(text, opt)
		within(n, problems)
		_, n, problems = ReadRange(text, opt)
		within(n, problems)
		_, n, problems = ReadNumber(text, opt)
		within(n, problems)
		_, n = ReadUnit(text, opt)
		within(n, nil)

		s, n, problems := ReadSpan(text, opt)
		within(n, problems)
		if n > 0 && len(problems) == 0 {
			again, m, more := ReadSpan(s.String(), opt)
			require.Empty(t, more, "%q -> %q", text, s)
			require.Equal(t, len(s.String()), m, "%q -> %q", text, s)
			require.Equal(t, s, again, "%q -> %q", text, s)
		}
		c, n, problems := ReadTemperature(text, opt)
		within(n, problems)
		if n > 0 && len(problems) == 0 {
			again, m, more := ReadTemperature(c.String(), opt)
			require.Empty(t, more)
			require.Equal(t, len(c.String()), m)
			require.Equal(t, c, again)
		}
		h, n, problems := ReadHeat(text, opt)
		within(n, problems)
		_, _ = h.Conventional()
		_ = h.Print(HeatStyle{Fan: true, Gas: true, Scale: Fahrenheit})
		if utf8.ValidString(text) {
			require.False(t, strings.Contains(h.Print(HeatStyle{}), "\uFFFD"))
		}
	})
}
