package quantity

import (
	"strconv"
	"strings"
)

// Heat is an oven setting as it was written: degrees, degrees of a fan oven, a
// gas mark or a word. Exactly one of Temp, Gas and Word is set.
type Heat struct {
	Temp Temperature
	Fan  bool   // Temp is what a fan oven is set to
	Gas  string // "6", "1/2"
	Word string // "moderate"
}

// ReadHeat reads an oven setting at the start of text: 180 C, fan 160 C,
// gas 6, moderately hot. n is how many bytes it took, 0 if there is none.
func ReadHeat(text string, opt Options) (h Heat, n int, problems []Problem) {
	r := reader{s: text, opt: opt}
	i := r.blanks(0)
	if j, ok := r.word(i, "gas"); ok {
		return r.gas(i, j)
	}
	for _, w := range heatWords {
		if j, ok := r.word(i, w); ok {
			return Heat{Word: w}, j, nil
		}
	}
	k := i
	if j, ok := r.word(i, "fan"); ok {
		k, h.Fan = r.blanks(j), true
	}
	t, end, ok := r.temperature(k)
	if !ok {
		if len(r.probs) == 0 && h.Fan {
			r.problem(CodeNoScale, i, k, "`fan` what?", "write such as `fan 180 C`", "")
		}
		return Heat{}, 0, r.probs
	}
	h.Temp = t
	if j, ok := r.word(r.blanks(end), "fan"); ok && t.Scale != 0 && !h.Fan {
		right := "fan " + t.String()
		r.problem(CodeScaleForm, i, j, "`fan` stands before the degrees", "write `"+right+"`", right)
		h.Fan, end = true, j
	}
	return h, end, r.probs
}

// heatWords are longest first, so that "moderately hot" is not "moderate".
var heatWords = []string{"moderately slow", "moderately hot", "very slow", "very hot", "moderate", "slow", "hot"}

func (r *reader) gas(i, j int) (Heat, int, []Problem) {
	k := r.blanks(j)
	if e, ok := r.word(k, "mark"); ok {
		k = r.blanks(e)
	}
	v, end, ok := r.number(k)
	if ok {
		if m, known := GasMarkOf(v); known {
			return Heat{Gas: m.Name}, end, r.probs
		}
	} else {
		end = j
	}
	r.probs = nil
	r.problem(CodeTempLimits, i, end, "gas ovens have the marks 1/4, 1/2 and 1 to 9", "write such as `gas 6`", "")
	return Heat{}, 0, r.probs
}

// String is the formatter's text: "180 C", "fan 160 C", "gas 6", "moderate".
func (h Heat) String() string {
	switch {
	case h.Gas != "":
		return "gas " + h.Gas
	case h.Word != "":
		return h.Word
	case h.Fan:
		return "fan " + h.Temp.String()
	}
	return h.Temp.String()
}

// Conventional is what an oven without a fan is set to, in Celsius: gas marks
// and words by their tables, Fahrenheit as Customary gives it, fan settings
// FanOffset degrees higher. ok is false when the mark or word is unknown or no
// scale was given.
func (h Heat) Conventional() (t Temperature, ok bool) {
	switch {
	case h.Gas != "":
		m, ok := gasMarkNamed(h.Gas)
		return Temperature{m.Customary, m.Customary, Celsius}, ok
	case h.Word != "":
		n, ok := HeatNamed(h.Word)
		return n.Celsius, ok
	case h.Temp.Scale == 0:
		return Temperature{}, false
	}
	t = h.Temp.Customary(Celsius)
	if h.Fan {
		t.Low, t.High = PlainOven(t.Low), PlainOven(t.High)
	}
	return t, true
}

// To is the temperature in another scale to the nearest degree.
func (t Temperature) To(s Scale) Temperature {
	if t.Scale == s || t.Scale == 0 {
		return t
	}
	conv := func(v int) int {
		n := Int(int64(v))
		if s == Celsius {
			n = FtoC(n)
		} else {
			n = CtoF(n)
		}
		d, _ := RoundTo(n, Int(1)).Int64()
		return int(d)
	}
	return Temperature{conv(t.Low), conv(t.High), s}
}

// Customary is an oven's temperature in another scale as cooks write it: by
// the oven table where it has the figure (350 F is 180 C), otherwise to the
// nearest 5 degrees. It is for ovens only, never for a core temperature or a
// limit.
func (t Temperature) Customary(s Scale) Temperature {
	if t.Scale == s || t.Scale == 0 {
		return t
	}
	exact := t.To(s)
	return Temperature{customary(t.Low, exact.Low, s), customary(t.High, exact.High, s), s}
}

func customary(v, exact int, s Scale) int {
	for _, m := range gasMarks {
		if s == Celsius && m.Fahrenheit == v {
			return m.Customary
		}
		if s == Fahrenheit && m.Customary == v {
			return m.Fahrenheit
		}
	}
	n, _ := RoundTo(Int(int64(exact)), Int(5)).Int64()
	return int(n)
}

// Print is the temperature in print: "200 °C", "180 to 200 °C", "−18 °C".
func (t Temperature) Print() string {
	s := signed(t.Low)
	if t.High != t.Low {
		s += " to " + signed(t.High)
	}
	if t.Scale == 0 {
		return s + "°"
	}
	return s + " °" + string(rune(t.Scale))
}

func signed(v int) string { return strings.Replace(strconv.Itoa(v), "-", "−", 1) }

// HeatStyle says which settings are printed beside each other.
type HeatStyle struct {
	Scale Scale // 0: as written
	Fan   bool  // also the setting of a fan oven
	Gas   bool  // also the gas mark
}

// Print is the setting in print: "200 °C", "180 °C fan", "gas 6", or with a
// style "200 °C, 180 °C fan, gas 6". What was written comes first.
func (h Heat) Print(st HeatStyle) string {
	first := h.Temp
	if st.Scale != 0 {
		first = first.Customary(st.Scale)
	}
	var parts []string
	switch {
	case h.Gas != "":
		parts = append(parts, "gas "+glyphs(h.Gas))
	case h.Word != "":
		parts = append(parts, h.Word+" oven")
	case h.Fan:
		parts = append(parts, first.Print()+" fan")
	default:
		parts = append(parts, first.Print())
	}
	t, ok := h.Conventional()
	if !ok {
		return parts[0]
	}
	scale := st.Scale
	if scale == 0 && h.Temp.Scale != 0 {
		scale = h.Temp.Scale
	}
	degrees := func(t Temperature) string {
		if scale != 0 {
			t = t.Customary(scale)
		}
		return t.Print()
	}
	if h.Gas != "" || h.Word != "" {
		if st.Scale != 0 || st.Fan {
			parts = append(parts, degrees(t))
		}
	} else if h.Fan && (st.Fan || st.Gas) {
		parts = append(parts, degrees(t)+" without fan")
	}
	if st.Fan && !h.Fan {
		parts = append(parts, degrees(Temperature{FanOven(t.Low), FanOven(t.High), Celsius})+" fan")
	}
	if st.Gas && h.Gas == "" {
		if m, ok := GasMarkNear(t); ok {
			parts = append(parts, "gas "+glyphs(m.Name))
		}
	}
	return strings.Join(parts, ", ")
}
