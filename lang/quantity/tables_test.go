package quantity

import (
	"crypto/sha256"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// What is printed of figures small and large, and what is read of lines usual
// and odd, as tables that people read: testdata/quantity/*.txt.
//
//	go test ./lang/quantity -run Tables -update

var update = flag.Bool("update", false, "rewrite testdata/quantity/*.txt")

func keep(t *testing.T, name, got string) {
	name = filepath.Join("..", "..", "testdata", "quantity", name)
	if *update {
		require.NoError(t, os.WriteFile(name, []byte(got), 0o644))
	}
	want, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, string(want), got, "%s: read it, then go test ./lang/quantity -run Tables -update", name)
}

// sizes are figures that stand close below and above each other, from a pinch to
// a cauldron.
func sizes() (out []Number) {
	for _, tens := range []Number{Frac(1, 100), Frac(1, 10), Int(1), Int(10), Int(100), Int(1000), Int(10000)} {
		for _, n := range []string{"1", "1.13", "1.26", "1.45", "1.67", "2.04", "2.84", "3.34", "4.53", "6.25", "7.49", "8.8", "9.96"} {
			out = append(out, Decimal(n).Mul(tens))
		}
	}
	return out
}

func TestTablesOfPrinting(t *testing.T) {
	var b strings.Builder
	table := func(title string, heads []string, of func(n Number) Quantity, styles ...Style) {
		fmt.Fprintf(&b, "# %s\n%s\n", title, strings.Join(heads, " | "))
		for _, n := range sizes() {
			if of(n).Dim == None && (n.Less(Frac(1, 10)) || Int(200).Less(n)) {
				continue
			}
			row := []string{n.Text(false)}
			for _, st := range styles {
				row = append(row, of(n).Print(st))
			}
			fmt.Fprintln(&b, strings.Join(row, " | "))
		}
	}
	unit := func(name string, s System) Style { return Style{Unit: MustUnit(name), System: s, Glyphs: true} }
	table("grams", []string{"g", "metric", "US", "imperial", "kg", "oz", "lb"}, Grams,
		Style{System: Metric}, Style{System: US, Glyphs: true}, Style{System: Imperial}, unit("kg", Metric), unit("oz", US), unit("lb", Imperial))
	table("millilitres", []string{"ml", "metric", "US", "imperial", "AU", "tsp", "tbsp", "cup US", "pint", "fl oz", "gill", "litre", "dl"}, Millilitres,
		Style{System: Metric}, Style{System: US, Glyphs: true}, Style{System: Imperial}, Style{System: AU, Comma: true}, unit("tsp", Metric), unit("tbsp", AU), unit("cup", US),
		unit("pint", Imperial), unit("fl oz", US), unit("gill", Imperial), unit("litre", Metric), unit("dl", Metric))
	table("pieces", []string{"pieces", "pieces", "cloves", "bunches", "inches", "by the hundredth"}, Pieces,
		Style{Glyphs: true}, Style{Unit: MustUnit("clove")}, Style{Unit: MustUnit("bunch"), Dash: true}, unit("inch", US), Style{CountTolerance: Frac(1, 100)})
	table("ranges", []string{"from", "g", "ml US", "pieces"}, func(n Number) Quantity {
		return Quantity{Dim: Mass, Value: Range{n, n.Mul(Frac(5, 4))}}
	}, Style{}, Style{System: US, Dash: true}, Style{System: Imperial, Exact: true})
	keep(t, "printed.txt", b.String())
}

// Each length of time, shortest first: as it is planned with, and as its words
// say it again.
func TestTablesOfTimes(t *testing.T) {
	var b strings.Builder
	for _, m := range []int{0, 1, 2, 14, 15, 29, 30, 45, 59, 60, 61, 75, 90, 119, 120, 150, 239, 240, 600, 720, 1439, 1440, 1441, 1500, 2160, 2879, 2880, 3540, 4320, 7200, 10079, 10080, 20160, 40320, 100800} {
		d := time.Duration(m) * time.Minute
		fmt.Fprintf(&b, "%d | %s | %s | %s | %s | %s\n", m, TimeText(d), TimeRangeText(d, d+5*time.Minute), TimeRangeText(d, 2*d), ClockText(true, m), ClockText(false, -m))
	}
	for _, s := range []int{1, 10, 29, 30, 59, 61, 90, 119, 3599, 3601} {
		d := time.Duration(s) * time.Second
		fmt.Fprintf(&b, "%d s | %s | %s\n", s, TimeText(d), TimeRangeText(d, d+30*time.Second))
	}
	keep(t, "times.txt", b.String())
}

func TestTablesOfOvens(t *testing.T) {
	var b strings.Builder
	for c := 60; c <= 290; c += 5 {
		h, n, problems := ReadHeat(fmt.Sprintf("%d C", c), Options{})
		require.Empty(t, problems)
		require.Positive(t, n)
		degrees, ok := h.Conventional()
		require.True(t, ok)
		mark := "none"
		if g, ok := GasMarkNear(degrees); ok {
			mark = g.Exact().String()
		}
		fmt.Fprintf(&b, "%d C | %s | %s | fan %d, plain %d | gas %s\n", c, degrees.To('F').Print(), h.Print(HeatStyle{Scale: 'F', Fan: true, Gas: true}), FanOven(c), PlainOven(c), mark)
	}
	for _, text := range []string{
		"very slow", "slow", "moderately slow", "moderate", "moderately hot", "hot", "very hot", "gas 1/4", "gas 1/2", "gas ½", "gas 1", "gas 9", "gas 10", "gas 0", "gas 2 1/2", "fan 180 C", "fan 350 F", "fan 100 C",
		"180 to 200 C", "200 to 180 C", "350-375 F", "180", "180 degrees", "-18 C", "−18 °C", "0 C", "180C", "180 ° C", "82 C", "1000 C", "500 F", "99999 C", "18O C",
	} {
		h, n, problems := ReadHeat(text, Options{})
		fmt.Fprintf(&b, "%s | %d | %s | %s | %s\n", text, n, h, h.Print(HeatStyle{Scale: 'C', Fan: true, Gas: true}), said(problems))
		d, n, problems := ReadTemperature(text, Options{})
		fmt.Fprintf(&b, "  by itself | %d | %s | %s | %s\n", n, d, d.Customary('F'), said(problems))
	}
	keep(t, "ovens.txt", b.String())
}

func said(problems []Problem) string {
	var out []string
	for _, p := range problems {
		out = append(out, fmt.Sprintf("%s %d-%d %s (%s) %q%s%s%s", p.Code, p.Start, p.End, p.Message, p.Help, p.Fix, map[bool]string{true: " asks"}[p.Ask], map[bool]string{true: " hint"}[p.Hint], map[bool]string{true: " far"}[p.Far]))
	}
	return strings.Join(out, "; ")
}

// odd are lines whose reading hangs on one mark or one word of theirs.
var odd = strings.Split(strings.TrimSpace(`
1,5 kg flour
1,500 g flour
2.000 g flour
1.5/2 cups milk
1/0 cup milk
03 onions
0 onions
00 flour
.5 kg flour
1..5 kg flour
5. kg flour
1.23456789 kg flour
999999999999999999 g flour
2 to 1 onions
2 to 2 onions
2 to onions
2- onions
2 -3 onions
2 or 3 onions
from 2 to 3 onions
2 to 3 to 4 onions
about 2 onions
~2 onions
c. 2 onions
circa 2 onions
up to 2 onions
1 lb 4 oz beef
4 oz 1 lb beef
1 lb 20 oz beef
1 lb 4 beef
1 lb 200 g beef
1 kg 200 g beef
2 cups 1 tbsp milk
1 cup plus 2 tbsp milk
1 cup plus milk
1 cup + 2 tbsp + 1 tsp milk
1 lb less 2 oz flour
1 lb less 2 cups flour
2 x 400 g tins beans
2 × 400 g beans
2x400g tins beans
2 x tins beans
2 x beans
2 (400 g) tins beans
2 tins (400 g) beans
2 tins (400 g each) beans
400 g tin beans
a 400 g tin of beans
two 400 g tins of beans
2 400 g tins beans
2 400 g beans
1 #10 can tomatoes
2 #10 cans tomatoes
#10 can tomatoes
900 g (2 lb) plums
900 g (3 lb) plums
900 g / 2 lb plums
200g/7oz chocolate
2 lb (about 900 g) plums
2 lb (a bagful) plums
1 pint (600 ml) milk
1 cup (240 ml) milk
120 g per cover beans
120 g per person beans
1 per 4 covers lettuce
1 per 0 covers lettuce
120 g per cover plus 200 g beans
120 g per cover plus 1 cup beans
20 ml per 3 covers oil
65% water
65 % water
65.5% water
70% chocolate
100 g 70% chocolate
2 small onions
2 large eggs
1 heaped tbsp flour
2 scant cups flour
2 level teaspoons salt
1 small tin beans
a pinch salt
an onion
a dozen eggs
half a dozen eggs
half a lemon
half lemon
half an onion
half fat milk
a half-pound of beef
half-a-pound of lard
a pound and a half of plums
one and a half onions
one-half cup sugar
one half cup sugar
two-thirds cup sugar
three half-pints of stock
three quarters of a cup sugar
3/4 of a cup sugar
1/2 a pint of cider
2 score eggs
a hundred eggs
two hundred eggs
twenty-five prunes
twenty five prunes
seven-hour lamb
five spice
three bean salad
a couple of onions
a few sprigs of dill
several onions
some thyme
a little oil
1-1/2 cups milk
1 - 2 cups milk
1-2-3 cups milk
3-2 cups milk
1 1/2-2 cups milk
1 1/2 1/2 cups milk
2 1/2-inch pieces ginger
a 5 cm piece of ginger
5 cm ginger
1 in. ginger
2 gal. water
1 c. rice
1 c rice
2 T butter
2 t salt
2 C flour
2 F flour
2 lbs. sugar
1 fl. oz. rum
2 fluid ounces rum
2 tablespoonfuls of capers
2 spoonfuls of capers
6OO g flour
6 00 g flour
l00 g flour
600 g g flour
600 g of flour
600 gflour
600g flour
600gr flour
600 grammes flour
2 m rope
3 fronds dill
3 sticks celery
3 stickies celery
4 cup cakes
4 "cup cakes"
4 cloves
4 cloves garlic
1 clove garlic
6 pieces chicken
1 bunch (about 30 g) dill
2 batches stock
1 batch of stock
2 dl cream
1 peck peas
2 wineglasses sherry
2 saltspoons salt
+2 onions
*2 onions
2* onions
2: onions
2, onions
2 | onions
½½ onion
1½½ onion
½-1 onion
1 ⅞ inches ginger
1⁄3 cup oats
1∕3 cup oats
3/2 onions
300 ml to 400 ml cream
300 ml to 2 cups cream
300 to 400 ml cream
300 ml-400 ml cream
½ to ¾ cup cream
`), "\n")

func TestTablesOfReading(t *testing.T) {
	var b strings.Builder
	for _, text := range odd {
		one := func(name string, opt Options) string {
			a, n, problems := ReadAmount(text, opt)
			q, no := a.Quantity(opt.System, 10)
			of := say(q)
			if no != nil {
				of = no.Code + " " + no.Message
			}
			return fmt.Sprintf("  %s: %d %v %q = %s; %s\n", name, n, a.Kind, a, of, said(problems))
		}
		list := one("list", Options{System: Metric})
		b.WriteString(text + "\n" + list)
		for _, o := range []struct {
			name string
			opt  Options
		}{{"prose", Options{System: Metric, Prose: true}}, {"alone", Options{System: Metric, Alone: true}}, {"comma", Options{System: Metric, DecimalComma: true}}} {
			if s := one(o.name, o.opt); strings.TrimPrefix(s, "  "+o.name) != strings.TrimPrefix(list, "  list") {
				b.WriteString(s)
			}
		}
		s, n := ReadSpoken(text, Options{})
		fmt.Fprintf(&b, "  spoken: %d %v%s\n", n, s.Value, map[bool]string{true: " article"}[s.Article]+map[bool]string{true: " part"}[s.Part]+map[bool]string{true: " ordinal"}[s.Ordinal])
	}
	keep(t, "read.txt", b.String())
}

func say(q Quantity) string {
	return fmt.Sprintf("%d %s%s", q.Dim, q.Value, map[bool]string{true: " packed"}[q.Packs != nil])
}

func TestTablesOfSpans(t *testing.T) {
	var b strings.Builder
	for _, text := range []string{
		"20 min", "20min", "20 mins", "20 minutes", "1 h 20 min", "1 h 20", "1h20min", "20 min 1 h", "1 h 80 min", "1 1/2 h", "1½ h", "1.5 h", "half an hour", "an hour", "one hour", "an hour and a half", "two hours and a half",
		"35 to 40 min", "35-40 min", "35–40 min", "40 to 35 min", "35 min to 1 h", "1 to 1 1/2 h", "about 2 h", "about 35 to 40 min", "at least 2 h", "at least", "up to 2 h", "overnight", "2 h, up to 1 day", "2 days, up to 1 h", "2 h, up to", "20 s", "90 seconds",
		"2 days", "1 day 12 h", "3 weeks", "100 weeks", "1000 days", "20", "20 m", "20 minuets", "20 hr", "20 hrs", "20 min.", "0 min", "-5 min", "5 min each", "5 min per load", "5 min plus 3 min", "5 h 5 s", "1 week 2 days", "2 to 3 days", "1 h to 1 h 30 min",
		"1 h 10 min to 1 h 20 min", "10 min to 20", "ten minutes", "twenty-five minutes", "three quarters of an hour", "a quarter of an hour", "a day", "1/4 h", "1,5 h", "1 h, 20 min", "O min", "1O min",
	} {
		for _, o := range []struct {
			name string
			opt  Options
		}{{"plain", Options{}}, {"prose", Options{Prose: true}}, {"comma", Options{DecimalComma: true}}} {
			s, n, problems := ReadSpan(text, o.opt)
			fmt.Fprintf(&b, "%s | %s | %d | %s = %v to %v, %v | %s\n", text, o.name, n, s, s.Low, s.High, s.UpTo, said(problems))
		}
	}
	keep(t, "spans.txt", b.String())
}

// Every form of a number before every unit and what may follow it, in every
// place: too many to read, so a row only tells that something has changed.
func TestTablesOfEverything(t *testing.T) {
	var units []string
	for _, u := range Units() {
		units = append(units, append([]string{u.Name, strings.ToUpper(u.Name), u.Name + "."}, u.forms...)...)
	}
	var b strings.Builder
	for _, number := range []string{"2 ", "2", "1/2 ", "1 1/2 ", "½ ", "1.5 ", "1,5 ", "2 to 3 ", "2-3 ", "two ", "a ", "half a ", "one and a half ", "2 x 400 ", "2 (400 g) ", "about 2 ", "120 g per ", "1 lb ", "2 heaped ", ""} {
		sum := sha256.New()
		for _, u := range units {
			for _, rest := range []string{" onions", "s of onions", " (30 g) plus 1 tbsp onions"} {
				for _, opt := range []Options{{}, {System: US, Alone: true}, {System: Imperial, Prose: true}, {System: AU, DecimalComma: true}} {
					a, n, problems := ReadAmount(number+u+rest, opt)
					q, _ := a.Quantity(opt.System, 7)
					fmt.Fprintln(sum, n, a, a.Print(Style{System: opt.System, Glyphs: true}), say(q), q.Scale(Frac(7, 3)).Print(Style{System: opt.System}), said(problems))
				}
			}
		}
		fmt.Fprintf(&b, "%s| %.8x\n", number, sum.Sum(nil))
	}
	keep(t, "everything.txt", b.String())
}
