package draft

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"tamis/compiler/larder"
	"tamis/lang/diag"
	"tamis/lang/prose"
)

// longest is how many words of sentences without a time may stand in one step.
const longest = 45

// do makes steps of a passage. Sentences that have nothing done are kept with the step they
// follow; before the first of them they are told about the dish. one keeps a numbered step
// together with what is said in it, as far as one step can be.
func (s *sorting) do(text string, one bool) {
	r := s.cur
	if !r.listed || orders(text) {
		r.prose = append(r.prose, text)
	}
	var cur *step
	timed, fired := false, false
	flush := func() {
		if cur != nil {
			r.steps = append(r.steps, *cur)
			cur, timed, fired = nil, false, false
		}
	}
	var idle []string
	for _, sentence := range sentences(text) {
		parts, oven := prose.Parts(sentence, s.oven)
		if !orders(sentence) && len(parts) == 1 && parts[0].Margin == "" {
			s.yields(sentence)
			if cur != nil {
				cur.text += " " + strings.TrimSpace(sentence)
			} else {
				idle = append(idle, strings.TrimSpace(sentence))
			}
			continue
		}
		s.yields(sentence)
		s.oven = oven
		if cur != nil && again(sentence) { // of the step that it is done in
			if both, _ := prose.Parts(cur.text+" "+strings.TrimSpace(sentence), nil); len(both) == 1 {
				cur.text, cur.margin = cur.text+" "+strings.TrimSpace(sentence), both[0].Margin
				timed = true
				continue
			}
		}
		for _, p := range parts {
			part := strings.TrimSpace(sentence[p.From:p.To])
			if part == "" {
				continue
			}
			if cur != nil && !timed && (!fired || !p.Timed && !p.Fired) && len(strings.Fields(cur.text))+len(strings.Fields(part)) <= longest {
				whole := cur.text + " " + part
				if both, _ := prose.Parts(whole, nil); len(both) == 1 || cur.margin == "" && !p.Fired && !p.Timed {
					cur.text = whole
					if p.Margin != "" {
						cur.margin = p.Margin
					}
					timed, fired = timed || p.Timed, fired || p.Fired
					continue
				}
			}
			flush()
			cur = &step{text: part, margin: p.Margin, above: s.above}
			s.above = ""
			timed, fired = p.Timed, p.Fired
			if len(idle) > 0 {
				if len(r.steps) == 0 && !one {
					r.about = append(r.about, strings.Join(idle, " "))
				} else {
					cur.text = strings.Join(idle, " ") + " " + cur.text
				}
				idle = nil
			}
		}
	}
	flush()
	if len(idle) > 0 {
		if one {
			r.steps = append(r.steps, step{text: strings.Join(idle, " "), above: s.above})
			s.above = ""
		} else {
			r.about = append(r.about, strings.Join(idle, " "))
		}
	}
}

// again tells whether the only times of a sentence are how often something is done.
func again(sentence string) bool {
	times := prose.Read(sentence).Times
	for _, t := range times {
		if t.Role != prose.Every {
			return false
		}
	}
	return len(times) > 0
}

// yields takes from a sentence for how many it is, or how much it makes.
func (s *sorting) yields(sentence string) {
	said := saysYield.FindStringSubmatch(sentence)
	if m := forCovers.FindStringSubmatch(strings.TrimSpace(sentence)); said == nil && m != nil {
		said = []string{m[0], "for", m[1] + m[2]}
	}
	if m := forSoMany.FindStringSubmatch(sentence); m != nil && (said == nil || serves(said[2]) == "") {
		said = []string{m[0], "for", m[2] + m[3]}
	}
	if m := batchIs.FindStringSubmatch(sentence); m != nil && said == nil {
		said = []string{m[0], "makes", m[1]}
	}
	if said == nil {
		return
	}
	r := s.cur
	rest := strings.Trim(said[2], " .,;")
	for _, f := range r.fields {
		if strings.HasPrefix(f.text, "serves ") || strings.HasPrefix(f.text, "makes ") {
			stated, _, _ := strings.Cut(f.text, ",")
			if n := serves(strings.TrimSuffix(rest, ")")); n != "" && !manyThings(rest) && strings.HasPrefix(stated, "serves ") && stated != "serves "+n {
				s.tell("It says \""+stated+"\", and \""+diag.Visible(strings.TrimSpace(said[0]))+"\" elsewhere: the first stands.", nil)
			}
			return
		}
	}
	if n := serves(strings.TrimSuffix(rest, ")")); n != "" && !manyThings(rest) && parses("serves "+n+" ?") {
		r.field("serves "+n, true)
		return
	}
	if low := strings.ToLower(said[1]); strings.HasPrefix(low, "make") || strings.HasPrefix(low, "yield") {
		if f := "makes " + strings.TrimSuffix(rest, ")"); parses(f + " ?") {
			r.field(f, true)
		}
	}
}

// sentences cuts a text behind every mark of an end that a capital, a figure or nothing
// follows; each keeps the blanks behind it.
func sentences(text string) (out []string) {
	from := 0
	for i := 0; i < len(text); i++ {
		c := text[i]
		if c != '.' && c != '!' && c != '?' && c != ';' {
			continue
		}
		end := i + 1
		for end < len(text) && strings.IndexByte(`"')_`, text[end]) >= 0 {
			end++
		}
		if strings.HasPrefix(text[end:], "”") || strings.HasPrefix(text[end:], "’") {
			end += len("”")
		}
		if end < len(text) && text[end] != ' ' {
			continue
		}
		next := end
		for next < len(text) && text[next] == ' ' {
			next++
		}
		if next < len(text) {
			first, _ := utf8.DecodeRuneInString(strings.TrimLeft(text[next:], `"'(_“‘`))
			if c == ';' || unicode.IsLower(first) && !ordersOn(text[next:]) || c == '.' && abbreviated(text[from:i]) {
				continue
			}
		}
		out = append(out, text[from:next])
		from, i = next, next-1
	}
	if strings.TrimSpace(text[from:]) != "" {
		out = append(out, text[from:])
	}
	return out
}

// ordersOn tells whether a text goes on with what is to be done: who types with a thumb
// begins no sentence with a capital.
func ordersOn(text string) bool {
	first := strings.ToLower(text[:wordEnd(text, 0)])
	return imperatives[first] || first == "meanwhile" || first == "then"
}

var abbreviations = setOf("no nos mr mrs ms dr st messrs p pp fig vol viz e.g i.e lb lbs oz tbsp tsp pt qt pts qts gal approx ca c")

// pence are old money: 1s. 2d.
var pence = lazily(`^\d+[sd]$`)

// abbreviated tells whether a text ends in a word that is cut short.
func abbreviated(s string) bool {
	s = strings.TrimRight(s, " ")
	w := s[strings.LastIndexByte(s, ' ')+1:]
	return pence.MatchString(w) || abbreviations[strings.ToLower(strings.Trim(w, `("'_`))] || len(w) == 1 && unicode.IsUpper(rune(w[0])) && w != "F" && w != "C" && w != "I"
}

// orders tells whether a sentence has something done.
func orders(sentence string) bool {
	low := strings.ToLower(sentence)
	clause := true // a clause begins
	for w := range strings.FieldsSeq(low) {
		bare := strings.Trim(w, `.,;:!?()"'_*“”‘’-–—`)
		if clause && imperatives[bare] {
			return true
		}
		clause = mayLead[bare] || strings.HasSuffix(bare, "ly") || strings.ContainsAny(w[len(w)-1:], ",;:)") || strings.HasSuffix(w, "--")
	}
	return false
}

// mayLead are words behind which a verb may say what is to be done.
var mayLead = setOf("and then now next first finally meanwhile or to must should please again just also you may let well at last after ccp step quickly gently slowly afterwards lastly")

func setOf(words string) map[string]bool {
	out := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		out[w] = true
	}
	return out
}

// imperatives are what cooks are told to do.
var imperatives = setOf(`add allow arrange bake baste beat bind blanch blend boil bone braise bread break bring broil brown brush butter chill chop clean coat
combine cook cool core cover cream crush cut decorate deglaze dice dilute dip discard dissolve divide drain draw dredge dress drizzle drop dry dust fill filter finish fit flake flame
flatten flour fold form freeze fry garnish glaze grate grease grill grind gut halve hang heat hull infuse invert joint keep knead ladle lay leave let level lift line lower
marinate mash measure melt mince mix moisten mould mold open pack parboil pare pat peel pick pierce pile pinch pipe pit place plunge poach pour preheat prepare press prick process
prove pull pulse punch puree purée put quarter raise reduce refrigerate reheat remove repeat reserve rest return rinse rise roast roll rub sauté saute scald scale scatter score scrape
scrub seal sear season separate serve set shake shape shell shred sift simmer singe skim skin skewer slash slice slide smooth soak soften spoon spread sprinkle squeeze stand steam
steep stew stick stir stone store strain stretch strew strip stuff sweat sweeten swirl take tear test thaw thicken thin tie tip toast top toss transfer trim truss turn unmould warm wash
weigh whip whisk wipe work wrap zest use make begin start give get have fetch send continue taste check tuck pass distribute assemble layer loosen run swill`)

// sentence makes a sentence of a part of one: with a capital, and a full stop where a comma
// was.
func sentence(s string) string {
	s = strings.TrimSpace(s)
	if n := len(s); n > 0 && (s[n-1] == ',' || s[n-1] == ';' || s[n-1] == ':') {
		s = s[:n-1] + "."
	}
	return larder.Capital(s)
}
