package draft_test

import (
	"html"
	"regexp"
	"slices"
	"strings"
	"unicode"
)

// A reader of words and figures that shares nothing with the program's: what a draft is
// held to must not be read by what made it.

var asWord = regexp.MustCompile(`[\p{L}\p{M}]+(?:['’][\p{L}]+)*`)

// written in another way by the notation, so that the word itself may be missing: units,
// numbers, the joints of a list, and the labels whose part a word of the notation plays.
var rewritten = set(`lge a an the of and or to about some any per x plus in for
one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred dozen
half halves third thirds fourth fourths quarter quarters fifth fifths sixth eighth eighths tenth tenths
g gram grams kg kilo kilos kilogram kilograms ml millilitre millilitres l litre litres liter liters oz ounce ounces lb lbs pound pounds pint pints pt pts quart quarts qt qts gallon gallons gal gill gills
cup cups cupful cupfuls c ozs ea tsp tsps teaspoon teaspoons teaspoonful teaspoonfuls tbsp tbsps tablespoon tablespoons tablespoonful tablespoonfuls t dessertspoon dessertspoonful dessertspoonfuls wineglass wineglassful teacup teacupful breakfastcup
min mins minute minutes h hr hrs hour hours day days inch inches in cm each
ingredients ingredient item method mode directions instructions preparation procedure time total altogether size portions serves feeds servings sufficient persons people makes yield yields note notes tip tips serving number quantities portion required
f c degrees fahrenheit celsius can cans tin tins packet packets bunch bunches small large medium`)

func set(words string) map[string]bool {
	out := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		out[w] = true
	}
	return out
}

// missing are the words of a text that stand nowhere in its draft, each as often as it is missing.
func missing(text, draft string) (out []string) {
	have := map[string]int{}
	for _, w := range asWord.FindAllString(strings.ToLower(draft), -1) {
		have[stem(w)]++
	}
	for _, w := range asWord.FindAllString(strings.ToLower(text), -1) {
		if s := stem(w); have[s] > 0 {
			have[s]--
		} else if !rewritten[w] {
			out = append(out, w)
		}
	}
	return out
}

// stem levels a plural, which the notation may set otherwise.
func stem(w string) string {
	w = strings.ReplaceAll(w, "’", "'")
	for _, end := range []string{"ies", "es", "s", "y"} {
		if s, ok := strings.CutSuffix(w, end); ok && (len(s) > 3 || end == "s" && len(s) > 2) {
			return s
		}
	}
	return w
}

var aFigure = regexp.MustCompile(`\d+(?:[.,]\d+)*(?:[/⁄]\d+)?|[¼½¾⅓⅔⅛⅜⅝⅞⅕⅖⅗⅘⅙⅚]`)

var glyphs = regexp.MustCompile(`[¼½¾⅓⅔⅛⅜⅝⅞]`)

var inWords = map[string]string{
	"a": "1", "an": "1", "one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9", "ten": "10", "eleven": "11", "twelve": "12",
	"thirteen": "13", "fourteen": "14", "fifteen": "15", "sixteen": "16", "seventeen": "17", "eighteen": "18", "nineteen": "19", "twenty": "20", "thirty": "30", "forty": "40", "fifty": "50",
	"sixty": "60", "ninety": "90", "hundred": "100", "both": "2", "couple": "2",
}

// figuresOf are the figures of a text in one form: ½ is 1/2, six is 6, a dozen 12, half an
// hour both 1/2 and 30, an hour and a half 1, 1/2 and 30.
func figuresOf(text string) []string {
	text = html.UnescapeString(text)
	if strings.Contains(text, "and a half") {
		text += " 1.5"
	}
	for _, f := range aFigure.FindAllString(text, -1) { // 8.000 kg
		if whole, noughts, ok := strings.Cut(f, "."); ok && strings.Trim(noughts, "0") == "" {
			text += " " + whole
		} else if ok { // 1.500 kg
			text += " " + strings.TrimRight(f, "0")
		}
	}
	for n, w := range map[string]string{"2": "two", "3": "three", "4": "four"} {
		if strings.Contains(text, w+" and a half") {
			text += " " + n + ".5"
		}
	}
	marks := strings.NewReplacer("¼", " 1/4 ", "½", " 1/2 ", "¾", " 3/4 ", "⅓", " 1/3 ", "⅔", " 2/3 ", "⅛", " 1/8 ", "⅜", " 3/8 ", "⅝", " 5/8 ", "⅞", " 7/8 ", "⅕", " 1/5 ", "⅖", " 2/5 ", "⅗", " 3/5 ", "⅘", " 4/5 ", "⅙", " 1/6 ", "⅚", " 5/6 ", "⁄", "/")
	low := strings.ToLower(marks.Replace(text))
	out := append(aFigure.FindAllString(low, -1), glyphs.FindAllString(text, -1)...)
	words := strings.FieldsFunc(low, func(c rune) bool { return !unicode.IsLetter(c) })
	for i, w := range words {
		if f := inWords[w]; f != "" {
			out = append(out, f)
			if i+1 < len(words) && inWords[words[i+1]] != "" { // twenty-five, thirty-six
				out = append(out, sum(f, inWords[words[i+1]]))
				if words[i+1] == "hundred" {
					out = append(out, f+"00")
				}
			}
		}
		n := "1"
		if i > 0 && inWords[words[i-1]] != "" {
			n = inWords[words[i-1]]
		}
		switch strings.TrimSuffix(w, "s") {
		case "half", "halve":
			out = append(out, n+"/2", "1/2", "30", "0.5")
		case "third":
			out = append(out, n+"/3")
		case "fourth", "quarter":
			out = append(out, n+"/4", "15", "45", "3/4")
		case "fifth":
			out = append(out, n+"/5")
		case "sixth":
			out = append(out, n+"/6")
		case "eighth":
			out = append(out, n+"/8")
		case "tenth":
			out = append(out, n+"/10", "0."+n)
		case "dozen":
			out = append(out, "12")
			if m := figureBefore(low, "dozen"); m != "" {
				out = append(out, times12(m))
			}
			out = append(out, times12(n), "6")
		}
	}
	for _, f := range out {
		switch f { // of an hour
		case "1/2":
			out = append(out, "30", "0.5")
		case "1/4":
			out = append(out, "15", "0.25")
		case "3/4":
			out = append(out, "45", "0.75")
		case "1/3":
			out = append(out, "20")
		case "2/3":
			out = append(out, "40")
		}
	}
	return out
}

var beforeDozen = regexp.MustCompile(`(\d+)\s+dozen`)

func figureBefore(text, _ string) string {
	if m := beforeDozen.FindStringSubmatch(text); m != nil {
		return m[1]
	}
	return ""
}

func times12(n string) string {
	v := 0
	for _, c := range n {
		v = v*10 + int(c-'0')
	}
	return number(v * 12)
}

func sum(a, b string) string {
	x, y := 0, 0
	for _, c := range a {
		x = x*10 + int(c-'0')
	}
	for _, c := range b {
		y = y*10 + int(c-'0')
	}
	return number(x + y)
}

func number(v int) string {
	if v == 0 {
		return "0"
	}
	s := ""
	for ; v > 0; v /= 10 {
		s = string(rune('0'+v%10)) + s
	}
	return s
}

// invented are the figures of a draft that do not stand in the text.
func invented(text, draft string) (out []string) {
	have := figuresOf(text)
	for _, f := range aFigure.FindAllString(draft, -1) {
		if !slices.Contains(have, f) && !slices.Contains(have, strings.TrimSuffix(f, ".")) {
			out = append(out, f)
		}
	}
	return out
}
