package quantity

import "strconv"

// What a kitchen gets to: liquid nitrogen is -196 C, a stone oven 500 C. The
// bounds catch slips of the pen, such as 1800 C.
const (
	coldest = -200
	hottest = 600
)

// ReadTemperature reads degrees at the start of text: 180 C, 180 to 200 C,
// -18 C, 350 F, 180 °C. n is how many bytes it took, 0 if there is none. When
// only the scale is missing, n is what could be read and Scale is 0.
func ReadTemperature(text string, opt Options) (t Temperature, n int, problems []Problem) {
	r := reader{s: text, opt: opt}
	t, end, ok := r.temperature(r.blanks(0))
	if !ok {
		return Temperature{}, 0, r.probs
	}
	return t, end, r.probs
}

func (r *reader) temperature(i int) (Temperature, int, bool) {
	low, j, ok := r.degrees(i)
	if !ok {
		return Temperature{}, i, false
	}
	told := len(r.probs)
	scale, e, named := r.scale(j)
	if !named && len(r.probs) > told { // "180 degrees"
		return Temperature{Low: low, High: low}, e, true
	}
	k := r.blanks(e)
	sep, join := k, ""
	if w, ok := r.word(k, "to"); ok && k > j {
		sep, join = r.blanks(w), "to"
	} else if c, n := r.runeAt(k); c == '-' || c == '–' || c == '—' {
		sep, join = r.blanks(k+n), r.s[k:k+n]
	}
	mark := len(r.probs)
	if join != "" {
		if high, hj, ok := r.degrees(sep); ok {
			if s2, he, named2 := r.scale(hj); named2 || !named {
				return r.tempRange(i, low, scale, high, s2, he, join)
			}
		}
		r.forget(mark)
	}
	if !named {
		return r.noScale(i, Temperature{Low: low, High: low}, e)
	}
	t := Temperature{Low: low, High: low, Scale: scale}
	r.limits(t, i, e)
	return t, e, true
}

func (r *reader) tempRange(i, low int, s1 Scale, high int, s2 Scale, end int, join string) (Temperature, int, bool) {
	t := Temperature{Low: min(low, high), High: max(low, high), Scale: s2}
	if s2 == 0 {
		return r.noScale(i, t, end)
	}
	right := t.String()
	switch {
	case s1 != 0 && s1 != s2:
		r.problem(CodeTempRange, i, end, "the two ends are in different scales", "give both in one scale", "")
	case low >= high:
		r.problem(CodeTempRises, i, end, "a range of degrees must rise", "write `"+right+"`", right)
	case join != "to":
		r.problem(CodeTempRange, i, end, "a range of degrees is written with `to`, because a dash may be a minus", "write `"+right+"`", right)
	case s1 != 0:
		r.problem(CodeTempRange, i, end, "a range names its scale once, at the end", "write `"+right+"`", right)
	}
	r.limits(t, i, end)
	return t, end, true
}

// degrees reads an optional minus and whole degrees.
func (r *reader) degrees(i int) (int, int, bool) {
	k, minus := i, false
	switch c, n := r.runeAt(i); c {
	case '-', '−':
		k, minus = i+n, true
	}
	j := r.digits(k)
	if j == k || j-k > 5 {
		if j > k {
			r.tooLong(k, j)
		}
		return 0, i, false
	}
	v, _ := strconv.Atoi(r.s[k:j])
	if c := r.byteAt(j); (c == '.' || c == ',') && isDigit(r.byteAt(j+1)) {
		e := r.digits(j + 1)
		if _, _, ok := r.scale(e); !ok {
			return 0, i, false
		}
		if r.s[j+1] >= '5' {
			v++
		}
		r.problem(CodeTempWhole, i, e, "temperatures are whole degrees", "write `"+strconv.Itoa(v)+"`", "")
		j = e
	}
	if minus {
		v = -v
	}
	return v, j, true
}

// scale reads C, F, °C, ° F, ℃, ℉, and complains of what is nearly one.
func (r *reader) scale(j int) (Scale, int, bool) {
	k := r.blanks(j)
	c, n := r.runeAt(k)
	sign := false
	switch c {
	case '℃':
		return Celsius, k + n, true
	case '℉':
		return Fahrenheit, k + n, true
	case '°', 'º', '˚':
		sign = true
		k = r.blanks(k + n)
	default:
		if w, e, ok := r.oneOf(k, "degrees", "degree", "deg"); ok {
			b := r.blanks(e)
			s := Scale(r.byteAt(b)) &^ 0x20
			if (s == Celsius || s == Fahrenheit) && r.ends(b+1) {
				r.problem(CodeScaleForm, k, b+1, "`"+w+"` is written only with its letter", "write `"+string(rune(s))+"`", string(rune(s)))
				return s, b + 1, true
			}
			r.problem(CodeNoScale, k, e, w+" of which scale?", "write `C` or `F`", "")
			return 0, e, false
		}
	}
	b := r.byteAt(k)
	switch {
	case (b == 'C' || b == 'F') && r.ends(k+1):
		return Scale(b), k + 1, true
	case (b == 'c' || b == 'f') && r.ends(k+1):
		s := Scale(b - 'a' + 'A')
		r.problem(CodeScaleForm, k, k+1, "the scale of a temperature is a capital", "write `"+string(rune(s))+"`", string(rune(s)))
		return s, k + 1, true
	}
	for _, w := range []string{"Celsius", "centigrade", "Fahrenheit"} {
		if e, ok := r.word(k, w); ok {
			s := Scale(w[0]) &^ 0x20
			r.problem(CodeScaleForm, k, e, "the scale of a temperature is a letter", "write `"+string(rune(s))+"`", string(rune(s)))
			return s, e, true
		}
	}
	if sign {
		return 0, k, false
	}
	return 0, j, false
}

// ends tells whether a scale's letter ends at i.
func (r *reader) ends(i int) bool {
	e := r.wordEnd(i)
	return e == i && !isDigit(r.byteAt(i))
}

func (r *reader) noScale(i int, t Temperature, end int) (Temperature, int, bool) {
	c, n := r.runeAt(end)
	if n > 0 && !isBlank(c) && c != ',' && c != '|' && c != ')' && c != '°' && c != 'º' && c != '˚' {
		return Temperature{}, i, false
	}
	if w := r.blanks(end); r.wordEnd(w) > w && r.nextIsOther(w) {
		return Temperature{}, i, false
	}
	low := t.Low
	help := "write `" + strconv.Itoa(low) + " C` or `" + strconv.Itoa(low) + " F`"
	switch {
	case low >= 1 && low <= 10:
		help = "write `gas " + strconv.Itoa(low) + "` or, for degrees, `" + strconv.Itoa(low) + " C`"
	case low >= 120 && low <= 250:
		f := (low*9/5 + 32 + 12) / 25 * 25
		help = "write `" + strconv.Itoa(low) + " C`, `" + strconv.Itoa(f) + " F`"
		if m, ok := GasMarkNear(Temperature{Low: low, High: low, Scale: Celsius}); ok {
			help += " or `gas " + m.Name + "`"
		}
	}
	r.problem(CodeNoScale, i, end, r.s[i:end]+" what?", help, "")
	return t, end, true
}

// nextIsOther tells whether the word at w shows that the number before it was
// no temperature: 200 g, 20 min.
func (r *reader) nextIsOther(w int) bool {
	if _, _, _, ok := r.unit(w); ok {
		return true
	}
	if _, _, ok := r.timeUnit(w); ok {
		return true
	}
	_, _, ok := r.oneOf(w, "for", "then", "to")
	return !ok
}

func (r *reader) limits(t Temperature, i, end int) {
	if c := t.inCelsius(t.Low); c < coldest {
		r.problem(CodeTempLimits, i, end, "no kitchen is as cold as "+t.String(), "", "")
	}
	if c := t.inCelsius(t.High); c > hottest {
		r.problem(CodeTempLimits, i, end, "no oven is as hot as "+t.String(), "", "")
	}
}

func (t Temperature) inCelsius(v int) float64 {
	if t.Scale == Fahrenheit {
		return float64(v-32) * 5 / 9
	}
	return float64(v)
}

// String is the formatter's text: "180 C", "180 to 200 C", "-18 C".
func (t Temperature) String() string {
	s := strconv.Itoa(t.Low)
	if t.High != t.Low {
		s += " to " + strconv.Itoa(t.High)
	}
	if t.Scale != 0 {
		s += " " + string(rune(t.Scale))
	}
	return s
}
