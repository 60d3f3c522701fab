package quantity

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestSpans(t *testing.T) {
	const m, h, d = time.Minute, time.Hour, 24 * time.Hour
	for _, c := range []struct {
		text string
		want Span
		text2,
		rest string
	}{
		{"40 min", Span{Low: 40 * m, High: 40 * m}, "40 min", ""},
		{"35 to 40 min", Span{Low: 35 * m, High: 40 * m}, "35 to 40 min", ""},
		{"35-40 min, fridge", Span{Low: 35 * m, High: 40 * m}, "35 to 40 min", ", fridge"},
		{"35–40 minutes", Span{Low: 35 * m, High: 40 * m}, "35 to 40 min", ""},
		{"1 h 20 min", Span{Low: 80 * m, High: 80 * m}, "1 h 20 min", ""},
		{"1h20min", Span{Low: 80 * m, High: 80 * m}, "1 h 20 min", ""},
		{"1 hour 20 mins", Span{Low: 80 * m, High: 80 * m}, "1 h 20 min", ""},
		{"80 min", Span{Low: 80 * m, High: 80 * m}, "1 h 20 min", ""},
		{"1 1/2 h", Span{Low: 90 * m, High: 90 * m}, "1 h 30 min", ""},
		{"1½ h", Span{Low: 90 * m, High: 90 * m}, "1 h 30 min", ""},
		{"½ hour", Span{Low: 30 * m, High: 30 * m}, "30 min", ""},
		{"1/3 h", Span{Low: 20 * m, High: 20 * m}, "20 min", ""},
		{"1.5 h", Span{Low: 90 * m, High: 90 * m}, "1 h 30 min", ""},
		{"1 to 1 1/2 h", Span{Low: h, High: 90 * m}, "1 h to 1 h 30 min", ""},
		{"1 h to 1 h 20 min", Span{Low: h, High: 80 * m}, "1 h to 1 h 20 min", ""},
		{"90 s", Span{Low: 90 * time.Second, High: 90 * time.Second}, "1 min 30 s", ""},
		{"30 seconds", Span{Low: 30 * time.Second, High: 30 * time.Second}, "30 s", ""},
		{"2 days", Span{Low: 2 * d, High: 2 * d}, "2 days", ""},
		{"1 day", Span{Low: d, High: d}, "1 day", ""},
		{"24 h", Span{Low: d, High: d}, "1 day", ""},
		{"36 h", Span{Low: 36 * h, High: 36 * h}, "36 h", ""},
		{"1 week", Span{Low: 7 * d, High: 7 * d}, "7 days", ""},
		{"3 weeks", Span{Low: 21 * d, High: 21 * d}, "3 weeks", ""},
		{"3 days to 8 weeks", Span{Low: 3 * d, High: 56 * d}, "3 days to 8 weeks", ""},
		{"about 2 h", Span{Low: 2 * h, High: 2 * h, About: true}, "about 2 h", ""},
		{"about 2 to 3 h", Span{Low: 2 * h, High: 3 * h, About: true}, "about 2 to 3 h", ""},
		{"say 45 min", Span{Low: 45 * m, High: 45 * m, About: true}, "about 45 min", ""},
		{"at least 2 h", Span{Low: 2 * h, High: 2 * h, AtLeast: true}, "at least 2 h", ""},
		{"At Least 2 h", Span{Low: 2 * h, High: 2 * h, AtLeast: true}, "at least 2 h", ""},
		{"overnight, fridge", Span{Low: 8 * h, High: 14 * h, Overnight: true}, "overnight", ", fridge"},
		{"2 h, up to 1 day", Span{Low: 2 * h, High: 2 * h, UpTo: d}, "2 h, up to 1 day", ""},
		{"2 to 3 h, up to 1 day", Span{Low: 2 * h, High: 3 * h, UpTo: d}, "2 to 3 h, up to 1 day", ""},
		{"3 days, up to 8 weeks, cool place", Span{Low: 3 * d, High: 3 * d, UpTo: 56 * d}, "3 days, up to 8 weeks", ", cool place"},
		{"20 min per onion", Span{Low: 20 * m, High: 20 * m}, "20 min", " per onion"},
		{"15 min plus 13 min per lb", Span{Low: 15 * m, High: 15 * m}, "15 min", " plus 13 min per lb"},
		{"1 min every 10 min", Span{Low: m, High: m}, "1 min", " every 10 min"},
	} {
		s, n, problems := ReadSpan(c.text, Options{})
		require.Empty(t, problems, c.text)
		require.Equal(t, c.want, s, c.text)
		require.Equal(t, c.rest, c.text[n:], c.text)
		require.Equal(t, c.text2, s.String(), c.text)
		again, n, problems := ReadSpan(s.String(), Options{})
		require.Empty(t, problems)
		require.Equal(t, len(s.String()), n)
		require.Equal(t, s, again)
	}
	for _, text := range []string{"", "soon", "at", "at least", "about", "g", "h", "20 g", "200 C", "overnightly", "2 x 3", "20minutes-ish", "70%"} {
		_, n, problems := ReadSpan(text, Options{})
		require.Zero(t, n, text)
		require.Empty(t, problems, text)
	}
}

func TestSpansWrittenWrongly(t *testing.T) {
	for _, c := range []struct{ text, code, says, fix, read string }{
		{"40", CodeSpanUnit, "40 what?", "", ""},
		{"35 to 40, fridge", CodeSpanUnit, "35 to 40 what?", "", ""},
		{"40 m", CodeSpanUnit, "`m` is no unit of time", "40 min", "40 min"},
		{"1h20", CodeSpanUnit, "20 what?", "1 h 20 min", "1 h 20 min"},
		{"20 min 1 h", CodeSpanOrder, "longer unit comes first", "1 h 20 min", "1 h 20 min"},
		{"40 to 35 min", CodeFalling, "must rise", "35 to 40", "35 to 40 min"},
		{"2 h to 30 min", CodeSpanRises, "must rise", "30 min to 2 h", "30 min to 2 h"},
		{"2 h, up to 1 h", CodeSpanUpTo, "not longer", "", "2 h"},
		{"10000 weeks", CodeSpanLong, "longer than anything", "", ""},
		{"99999999999999999999 h", CodeLong, "longer than any kitchen", "", ""},
		{"1,5 h", CodeMark, "meant as 1.5?", "1.5", "1 h 30 min"},
		{".5 h", CodeNoZero, "overlooked", "0.5", "30 min"},
	} {
		s, n, problems := ReadSpan(c.text, Options{})
		require.Len(t, problems, 1, c.text)
		require.Equal(t, c.code, problems[0].Code, c.text)
		require.Contains(t, problems[0].Message, c.says, c.text)
		require.Equal(t, c.fix, problems[0].Fix, c.text)
		if c.read == "" {
			require.Zero(t, n, c.text)
		} else {
			require.Equal(t, c.read, s.String(), c.text)
		}
	}
}

func TestTemperatures(t *testing.T) {
	for _, c := range []struct {
		text string
		want Temperature
		back string
		rest string
	}{
		{"180 C", Temperature{180, 180, Celsius}, "180 C", ""},
		{"180C", Temperature{180, 180, Celsius}, "180 C", ""},
		{"180 °C, top shelf", Temperature{180, 180, Celsius}, "180 C", ", top shelf"},
		{"180°C", Temperature{180, 180, Celsius}, "180 C", ""},
		{"180 º C", Temperature{180, 180, Celsius}, "180 C", ""},
		{"180℃", Temperature{180, 180, Celsius}, "180 C", ""},
		{"350 ℉", Temperature{350, 350, Fahrenheit}, "350 F", ""},
		{"180 to 200 C", Temperature{180, 200, Celsius}, "180 to 200 C", ""},
		{"-18 C", Temperature{-18, -18, Celsius}, "-18 C", ""},
		{"−18 C", Temperature{-18, -18, Celsius}, "-18 C", ""},
		{"-2 to 4 C", Temperature{-2, 4, Celsius}, "-2 to 4 C", ""},
		{"-20 to -18 C", Temperature{-20, -18, Celsius}, "-20 to -18 C", ""},
		{"350 F", Temperature{350, 350, Fahrenheit}, "350 F", ""},
		{"220 C for 20 min then 160 C", Temperature{220, 220, Celsius}, "220 C", " for 20 min then 160 C"},
		{"0 C", Temperature{0, 0, Celsius}, "0 C", ""},
	} {
		v, n, problems := ReadTemperature(c.text, Options{})
		require.Empty(t, problems, c.text)
		require.Equal(t, c.want, v, c.text)
		require.Equal(t, c.back, v.String())
		require.Equal(t, c.rest, c.text[n:], c.text)
	}
	for _, text := range []string{"", "hot", "C", "200 g", "20 min", "2:30", "7grain", "180 Cups", "99999999 C"} {
		_, n, problems := ReadTemperature(text, Options{})
		require.Zero(t, n, text)
		if text != "99999999 C" {
			require.Empty(t, problems, text)
		}
	}
}

func TestTemperaturesWrittenWrongly(t *testing.T) {
	for _, c := range []struct{ text, code, says, fix, read string }{
		{"200", CodeNoScale, "200 what?", "", "200"},
		{"180 to 200", CodeNoScale, "180 to 200 what?", "", "180 to 200"},
		{"200 for 20 min", CodeNoScale, "200 what?", "", "200"},
		{"180 degrees", CodeNoScale, "of which scale", "", "180"},
		{"180 c", CodeScaleForm, "capital", "C", "180 C"},
		{"180 degrees C", CodeScaleForm, "only with its letter", "C", "180 C"},
		{"180 Celsius", CodeScaleForm, "letter", "C", "180 C"},
		{"350 Fahrenheit", CodeScaleForm, "letter", "F", "350 F"},
		{"180-200 C", CodeTempRange, "written with `to`", "180 to 200 C", "180 to 200 C"},
		{"180–200 C", CodeTempRange, "written with `to`", "180 to 200 C", "180 to 200 C"},
		{"180 C to 200 C", CodeTempRange, "once", "180 to 200 C", "180 to 200 C"},
		{"180 C to 400 F", CodeTempRange, "different scales", "", "180 to 400 F"},
		{"200 to 180 C", CodeTempRises, "must rise", "180 to 200 C", "180 to 200 C"},
		{"62.5 C", CodeTempWhole, "whole degrees", "", "63 C"},
		{"1800 C", CodeTempLimits, "as hot as 1800 C", "", "1800 C"},
		{"-300 C", CodeTempLimits, "as cold as -300 C", "", "-300 C"},
	} {
		v, _, problems := ReadTemperature(c.text, Options{})
		require.Len(t, problems, 1, c.text)
		require.Equal(t, c.code, problems[0].Code, c.text)
		require.Contains(t, problems[0].Message, c.says, c.text)
		require.Equal(t, c.fix, problems[0].Fix, c.text)
		require.Equal(t, c.read, v.String(), c.text)
	}
	// `oven 200` offers what the notation's own table of messages offers.
	_, _, problems := ReadTemperature("200", Options{})
	require.Equal(t, "write `200 C`, `400 F` or `gas 6`", problems[0].Help)
	_, _, problems = ReadTemperature("6", Options{})
	require.Contains(t, problems[0].Help, "`gas 6`")
}

// A year is twelve months, and is printed so.
func TestYears(t *testing.T) {
	for said, want := range map[string]string{"1 year": "12 months", "2 years": "24 months", "1 to 2 years": "12 to 24 months"} {
		v, n, problems := ReadSpan(said, Options{})
		require.Empty(t, problems)
		require.Equal(t, len(said), n)
		require.Equal(t, want, v.String())
	}
}
