package practice

import (
	"embed"
	"encoding/csv"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"
)

//go:embed data
var embedded embed.FS

// Topics is the closed list of what limits are about.
var Topics = []string{
	"cook", "reheat", "reheat time", "cool", "keep", "mix", "hot hold", "cold hold", "time as control",
	"thaw", "freezer", "freeze for parasites", "danger zone", "roast oven setting", "microwave", "part-cook",
	"soak beans", "boil beans", "honey",
}

type book struct {
	limits    []*Limit
	about     map[string][]*Limit // the same by their topic
	used      map[whose][]*Limit  // those that are used, by practice, topic and food
	practices []*Practice
}

// whose is a figure by who gives it, its topic and the food.
type whose struct{ practice, topic, food string }

var builtin = sync.OnceValue(func() *book {
	files, err := fs.Sub(embedded, "data")
	if err != nil {
		panic("practice: " + err.Error())
	}
	b, err := load(files)
	if err != nil {
		panic("practice: the built-in limits cannot be read: " + err.Error()) // the tests read every row
	}
	return b
})

// Limits are all rows, in the order of the file.
func Limits() []*Limit { return builtin().limits }

// Practices are all practices that have limits.
func Practices() []*Practice { return builtin().practices }

func load(files fs.FS) (*book, error) {
	b := &book{about: map[string][]*Limit{}, used: map[whose][]*Limit{}}
	rows, err := table(files, "practices.csv")
	if err != nil {
		return nil, err
	}
	for _, r := range rows {
		b.practices = append(b.practices, &Practice{Name: r["practice"], Other: list(r["other"]), Then: list(r["then"])})
	}
	rows, err = table(files, "limits.csv")
	if err != nil {
		return nil, err
	}
	for i, r := range rows {
		l, err := limit(r)
		if err != nil {
			return nil, fmt.Errorf("limits.csv:%d: %w", i+2, err)
		}
		b.limits = append(b.limits, l)
		b.about[l.Topic] = append(b.about[l.Topic], l)
		if l.Use {
			for _, food := range l.Foods {
				k := whose{l.Practice, l.Topic, food}
				b.used[k] = append(b.used[k], l)
			}
		}
	}
	return b, nil
}

// table reads a CSV file whose first row names the columns.
func table(files fs.FS, name string) ([]map[string]string, error) {
	f, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	var out []map[string]string
	for _, row := range all[1:] {
		m := map[string]string{}
		for i, v := range row {
			m[all[0][i]] = strings.TrimSpace(v)
		}
		out = append(out, m)
	}
	return out, nil
}

func list(text string) []string {
	if text == "" {
		return nil
	}
	out := strings.Split(text, "/")
	for i := range out {
		out[i] = strings.TrimSpace(out[i])
	}
	return out
}

func limit(r map[string]string) (*Limit, error) {
	l := &Limit{
		Practice: r["practice"],
		Topic:    r["topic"],
		Foods:    list(r["foods"]),
		TempRule: r["temp_rule"],
		TimeRule: r["time_rule"],
		What:     r["what"],
		Source:   r["source"],
		Via:      r["seen_via"],
		Note:     r["note"],
	}
	if !slices.Contains(Topics, l.Topic) {
		return nil, fmt.Errorf("unknown topic %q", l.Topic)
	}
	switch r["verified"] {
	case "seen in source":
		if l.Via == "" || l.Source == "" {
			return nil, fmt.Errorf("seen, but not where")
		}
	case "from memory":
		l.Memory = true
	default:
		return nil, fmt.Errorf("verified is %q", r["verified"])
	}
	switch r["use"] {
	case "note":
	case "rule":
		l.Use = true
	case "rule print":
		l.Use, l.Print = true, true
	default:
		return nil, fmt.Errorf("use is %q", r["use"])
	}
	var err error
	if l.C, err = degrees(r["temp_c"]); err != nil {
		return nil, err
	}
	if l.F, err = degrees(r["temp_f"]); err != nil {
		return nil, err
	}
	return l, l.times(r["time"], r["unit"])
}

// degrees reads "75", "57 to 21", "5 or 57" or nothing.
func degrees(text string) (d Degrees, err error) {
	if text == "" {
		return d, nil
	}
	from, to, two := strings.Cut(text, " to ")
	if !two {
		from, to, two = strings.Cut(text, " or ")
	}
	if d.From, err = strconv.ParseFloat(from, 64); err != nil {
		return d, err
	}
	d.Set, d.To = true, d.From
	if two {
		d.To, err = strconv.ParseFloat(to, 64)
	}
	return d, err
}

var units = map[string]time.Duration{
	"s": time.Second, "min": time.Minute, "h": time.Hour, "d": 24 * time.Hour, "months": 30 * 24 * time.Hour,
}

// times reads "2", "3 to 4", "<1" or nothing. Instantaneous is no time at all.
func (l *Limit) times(text, unit string) error {
	if text == "" || text == "<1" {
		return nil
	}
	u, ok := units[unit]
	if !ok {
		return fmt.Errorf("unknown unit of time %q", unit)
	}
	low, high, two := strings.Cut(text, " to ")
	if !two {
		high = low
	}
	n, err := strconv.Atoi(high)
	if err != nil {
		return err
	}
	l.Time = time.Duration(n) * u
	l.length = text + " " + spelled(unit, text == "1")
	return nil
}

func spelled(unit string, one bool) string {
	long := map[string]string{"s": "seconds", "min": "minutes", "h": "hours", "d": "days", "months": "months"}[unit]
	if one {
		return strings.TrimSuffix(long, "s")
	}
	return long
}
