package parse

import (
	"strings"
)

// explainClause reports why a clause did not read.
func (p *parser) explainClause(place Place, w *Word, s *piece, a int, stuck tok) {
	at := stuck.at
	to := min(s.end, at+max(len(stuck.text), 1))
	if stuck.kind == tQty || stuck.kind == tName {
		to = s.end
	}
	text := p.text[at:s.end]
	timed := w.reads.want == wTime
	var prev tok
	for _, t := range s.toks {
		if t.at < at {
			prev = t
		}
	}
	atEnd := stuck.kind == -1
	if !atEnd && p.joinedClause(place, w, s, a, at, text) {
		return
	}
	switch {
	case timed && matchGroup(text, "each") > 0:
		d := p.err(codeEach, at, at+4, "each what?").WithHelp("write such as `%s per onion`", p.before(s, at))
		d.WithHelp("for the whole of it leave out `each`")
	case timed && atEnd && prev.kind == tWord && prev.text == "per":
		p.err(codeEach, prev.at, s.end, "per what?").WithHelp("write such as `per onion`, `per 300 g green beans` or `per load`")
	case timed && (stuck.kind == tWord && stuck.text == "plus" || text[:min(1, len(text))] == "+"):
		p.err(codeGrowsLast, a, s.end, "the part of the time that grows comes last").
			WithHelp("write it like this: `%s 15 min plus 13 min per lb lamb`", w.Text)
	case timed && prev.kind == tWord && prev.text == "at":
		p.err(codeClauseForm, at, s.end, "%s is no weight", p.quote(at, s.end)).
			Because("after `at` stands what the thing weighs; a time of day is said on the menu").
			WithHelp("write it like this: `%s 2 h at 4 kg, 3 h at 6 kg`", w.Text)
	case timed && atEnd && hasWord(s.toks, "plus"):
		p.err(codeGrowsLast, a, s.end, "what does the second time grow with?").
			WithHelp("add the two up, or write such as `%s 15 min plus 13 min per lb lamb`", w.Text)
	case timed && (stuck.kind == tTemp || stuck.kind == tQty) && prev.kind == tTime, timed && stuck.kind == tTime && prev.kind == tTime:
		p.err(codeClauseForm, at, to, "%s does not fit after `%s`", p.quote(at, to), p.before(s, at)).
			WithHelp("one clause says one thing: put a bar before the next").
			WithHelp("write it like this: `%s`", w.Form)
	case timed && hasWord(s.toks, "until"):
		p.err(codeClauseForm, a, s.end, "about how long may it take?").
			Because("the planner needs a figure, and prints it as a guess").
			WithHelp("write it like this: `%s until brown, say 10 min`", w.Text)
	case w.Text == "with" && prev.kind == tKey:
		p.err(codeClauseForm, at, s.end, "%s does not fit after `with`", p.quote(at, s.end)).
			WithHelp("write it like this: `with 2 cooks`").
			WithHelp("for a step of one option write `if with %s`", p.text[at:s.end])
	case w.Text == "oven" && (atEnd || stuck.kind == tInt || stuck.kind == tJunk) && prev.kind == tKey:
		p.err(codeBareHeat, a, s.end, "how hot?").WithHelp("write `oven 200 C`, `oven 400 F`, `oven gas 6` or `oven moderate`")
	case timed && prev.kind == tKey && matchGroup(text, "for") > 0:
		n := matchGroup(text, "for")
		p.err(codeClauseForm, at, at+n, "`%s` needs no `for`", w.Text).
			WithHelp("write it like this: `%s`", w.Form).
			Replace("leave it out", false, p.span(at, at+n+blanks(text[n:])), "")
	case timed && (atEnd || stuck.kind == tName) && prev.kind == tKey:
		d := p.err(codeClauseForm, a, s.end, "how long?")
		if w.Text == "watch" || w.Text == "work" || w.Text == "leave" {
			d.WithHelp("write such as `%s 10 min`; if nobody knows, `%s until brown, say 10 min`", w.Text, w.Text)
		} else {
			d.WithHelp("write it like this: `%s`", w.Form)
		}
	case stuck.kind == tName && prev.kind == tComma && contains(w.reads.small, "warm place"):
		p.err(codeClauseForm, at, to, "`%s` is no place that is known", shorten(stuck.text)).
			WithHelp("the places are `fridge`, `freezer`, `room`, `cool place` and `warm place`")
	case (w.Text == "stand" || w.Text == "thaw" || w.Text == "keeps") && prev.kind == tTime:
		d := p.err(codeClauseForm, a, s.end, "where?")
		d.WithHelp("put a comma and a place after the time: `fridge`, `freezer`, `room`, `cool place` or `warm place`")
	case atEnd:
		p.err(codeClauseForm, a, s.end, "something is missing after `%s`", p.text[a:s.end]).WithHelp("write it like this: `%s`", w.Form)
	default:
		p.err(codeClauseForm, at, to, "%s does not fit after `%s`", p.quote(at, to), p.before(s, at)).
			WithHelp("write it like this: `%s`", w.Form)
	}
}

func hasWord(toks []tok, word string) bool {
	for _, t := range toks {
		if t.kind == tWord && t.text == word {
			return true
		}
	}
	return false
}

// cookWords are verbs that writers put into the margin, and what there says
// the same.
var cookWords = map[string]string{
	"bake": "oven 180 C | leave", "roast": "oven 200 C | leave", "simmer": "ring low | leave", "boil": "ring high | leave",
	"fry": "ring medium | watch", "sear": "ring high | work", "poach": "ring low | watch", "steam": "ring medium | leave",
	"braise": "oven 150 C | leave", "stew": "ring low | leave", "grill": "grill high | watch", "toast": "grill high | watch",
	"cook": "ring medium | leave", "heat": "ring medium | work", "warm": "ring low | work", "melt": "ring low | work",
	"chill": "fridge | leave", "cool": "room | leave", "freeze": "freezer | leave", "marinate": "fridge | leave", "soak": "room | leave",
	"prove": "warm place, 27 C | leave", "proof": "warm place, 27 C | leave", "rise": "warm place, 27 C | leave",
	"mix": "work", "stir": "work", "whisk": "work", "chop": "work", "knead": "work", "blend": "work", "prep": "work", "prepare": "work",
	"wait": "leave", "stand": "leave", "infuse": "leave", "time": "leave", "cooking": "leave",
}

// unknownClause reports a clause whose first word is not known.
func (p *parser) unknownClause(place Place, a, b int, t string) {
	n := 0
	for n < len(t) && strings.IndexByte(" \t,:", t[n]) < 0 {
		n++
	}
	word := lower(t[:n])
	other := OnStep
	if place == OnStep {
		other = OnLine
	}
	if w, k := LookUp(other, t); w != nil {
		d := p.err(codeClausePlace, a, a+k, "`%s` does not stand in %s", w.Text, place)
		d.WithHelp("it belongs in %s", other)
		return
	}
	if like, ok := cookWords[word]; ok {
		p.cookWord(a, b, t, n, word, like)
		return
	}
	if startsNumber(t) {
		s := p.piece(b)
		defer s.done()
		s.failed = true
		s.lex(a, aTime)
		d := p.err(codeClauseWord, a, b, "`%s` stands without a word that says what it is", shorten(t))
		if len(s.toks) == 2 && s.toks[0].kind == tTime && s.toks[1].kind == tName && marginWord(lower(s.toks[1].text)).rank() > 0 {
			right := lower(s.toks[1].text) + " " + s.toks[0].text
			d.WithHelp("write `%s`", right).Replace("write "+right, false, p.span(a, b), right)
		} else if len(s.toks) > 0 && s.toks[0].kind == tTime {
			t = s.toks[0].text
			d.WithHelp("write `work %s`, `watch %s` or `leave %s`", t, t, t)
		} else if len(s.toks) > 0 && s.toks[0].kind == tTemp {
			d.WithHelp("write `oven %s`, `core %s` or `reach %s`", t, t, t)
		} else {
			d.WithHelp("what stands between bars begins with a word such as `work`, `oven` or `makes`")
		}
		return
	}
	d := p.err(codeClauseWord, a, a+max(n, 1), "`%s` is no word of the margin", shorten(t[:max(n, 1)]))
	if say, ok := marginSays[word]; ok && place == OnStep {
		d.WithHelp("write it like this: `%s`", say)
		return
	}
	right, k := says(place, t)
	if other := p.elsewhere(place, t); other != nil && right == "" {
		d.WithHelp("`%s` belongs in %s: `%s`", other.Text, other.In[0], other.Form)
		return
	}
	d.Because("what stands between bars is read by the compiler, so each part begins with a word that it knows")
	if right != "" {
		d.WithHelp("did you mean `%s`?", right).Replace("write "+right, false, p.span(a, a+k), right)
		return
	}
	for _, w := range WordsIn(place) {
		if first, _, several := strings.Cut(w.Text, " "); several && first == word {
			d.WithHelp("did you mean `%s`?", w.Form)
			return
		}
	}
	if place == OnLine {
		d.WithHelp("what the cook should know about it follows a comma, before the bar")
	} else {
		d.WithHelp("if it is for the cook, put it into the sentence")
	}
}

// cookWord reports a cooking verb in a margin and offers clauses that say it.
func (p *parser) cookWord(a, b int, t string, n int, word, like string) {
	rest := strings.TrimSpace(t[n:])
	quiet := &parser{src: p.src, text: rest, opt: p.opt, scratch: p.scratch}
	s := quiet.piece(len(rest))
	if rest != "" {
		s.lex(0, aTime)
	}
	d := p.err(codeCookWord, a, b, "`%s` is for the prose", word).
		Because("the margin holds what the planner works with: heat, time, place")
	if s.failed || len(s.toks) != 1 || s.toks[0].kind != tTime {
		rest = "40 min"
		if word == "mix" || word == "stir" || word == "whisk" || word == "chop" {
			rest = "5 min"
		}
		d.WithHelp("in the margin write such as `%s %s`", like, rest)
		return
	}
	d.WithHelp("in the margin write `%s %s`", like, rest).
		Replace("write "+like+" "+rest, false, p.span(a, b), like+" "+rest)
}

// joinedClause reports clauses that have no bar between them, a place that is
// written as in a sentence, and a full stop. text is what did not fit, at at.
func (p *parser) joinedClause(place Place, w *Word, s *piece, a, at int, text string) bool {
	if text == "." {
		p.err(codeClauseForm, at, at+1, "no full stop stands in the margin").
			Replace("take it out", true, p.span(at, at+1), "")
		return true
	}
	rest, comma := text, 0
	if text[0] == ',' {
		comma = 1 + blanks(text[1:])
		rest = text[comma:]
	}
	if where, n := sayPlace(rest); n > 0 && n == len(rest) && w.reads.want == wTime {
		before := strings.TrimSpace(p.text[s.toks[0].at+len(w.Text) : at])
		right := "stand " + before + ", " + where
		if w.Text == "thaw" || w.Text == "keeps" {
			right = w.Text + " " + before + ", " + where
		}
		p.err(codeClauseForm, at, s.end, "the place is written another way").
			WithHelp("write `%s`", right).
			Replace("write "+right, false, p.span(a, s.end), right)
		return true
	}
	next, _ := LookUp(place, rest)
	if next == nil && comma == 0 && w.Text == "oven" && startsNumber(rest) {
		v := p.piece(s.end)
		defer v.done()
		v.failed = true
		v.lex(at, aTime)
		if len(v.toks) == 1 && v.toks[0].kind == tTime {
			p.err(codeClauseForm, at, s.end, "how long stands in a clause of its own").
				WithHelp("write `%s | leave %s`", p.before(s, at), rest).
				Replace("make it a clause of its own", false, p.span(at, at), "| leave ")
			return true
		}
	}
	if next == nil {
		return false
	}
	d := p.err(codeClauseForm, at, s.end, "a bar is missing before `%s`", next.Text).
		Because("each part of a margin stands between bars")
	d.Replace("put a bar", false, p.span(at, at+comma), "| ")
	return true
}

// sayPlace reads a place as people say it: in the fridge, at room temperature.
func sayPlace(text string) (string, int) {
	w := wordReader{text: text}
	if !w.skip("in") && !w.skip("at") {
		return "", 0
	}
	_ = w.skip("the") || w.skip("a")
	w.at += blanks(text[w.at:])
	for _, place := range placeWords {
		if n := matchGroup(text[w.at:], place); n > 0 {
			end := w.at + n
			if t := matchGroup(strings.TrimLeft(text[end:], " "), "temperature"); place == "room" && t > 0 {
				end += blanks(text[end:]) + t
			}
			return place, end
		}
	}
	return "", 0
}

// marginSays are words that writers put first in a margin, and the way there.
var marginSays = map[string]string{
	"vessel": "in stockpot", "pan": "in large pan", "high": "ring high", "medium": "ring medium", "low": "ring low", "heat": "ring medium",
	"hob": "ring medium", "up": "hold up to 1 h", "until": "watch until brown, say 10 min", "for": "leave 10 min", "wait": "leave 10 min",
	"temp": "core 75 C", "temperature": "core 75 C", "gas": "oven gas 6", "fan": "oven fan 180 C", "chilled": "stand 2 h, fridge",
	"overnight": "stand overnight, fridge", "cook": "by Ana", "needs": "uses 20 g butter", "take": "uses 20 g butter", "makes:": "makes 200 ml lamb fat",
}
