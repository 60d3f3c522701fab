package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"
	"text/template"
	"unicode"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"tamis/compiler/load"
	"tamis/lang/diag"
	"tamis/lang/format"
	"tamis/lang/quantity"
)

// start is what a new text is begun with.
type start struct {
	Title string
	For   string // how many
	On    string // when, "2027-05-02 13:00"; empty: nobody knows yet
	Cooks string
	Alone bool // one dish: what is what is said in it
	out   string
}

// question is one thing that is asked of whoever sits at a terminal.
type question struct {
	what  string
	usual string
	to    *string
	flag  string
}

// starter is a text that can be begun, with its usual title and number.
type starter struct{ kind, title, number string }

var starters = []starter{
	{"menu", "Sunday lunch", "6"}, {"dish", "Leek soup", "4"}, {"series", "Three evenings", "8"}, {"book", "The house book", "4"},
}

func startKinds() (out []string) {
	for _, s := range starters {
		out = append(out, s.kind)
	}
	return out
}

func (a *app) begin() *cobra.Command {
	var o start
	cmd := &cobra.Command{
		Use:   "new KIND [TITLE]",
		Short: "Begin a menu, a dish, a series or a book",
		Long: `New writes a small text to begin with, in a file that is not there yet: a menu,
a dish, a series or a book. It checks clean and says in comments what is what;
write your own over it.

On a terminal it asks what was not said, four questions at most; Enter takes
what stands in brackets. Anywhere else it asks nothing.`,
		Example: `  tamis new menu
  tamis new dish "Plum dumplings" --for 6
  tamis new menu "Harbour breakfast" --for 12 --on "2027-05-02 09:30" --cooks "Nell, Omar"`,
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return startKinds(), cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveKeepOrder
		},
		Args: func(_ *cobra.Command, args []string) error {
			switch {
			case len(args) == 0:
				return misused{errors.New("new what? It can be menu, dish, series or book: tamis new dish")}
			case len(args) > 2:
				return misused{fmt.Errorf("new takes a kind and a title, and %d words were given: put the title in quotes", len(args))}
			case !slices.Contains(startKinds(), args[0]):
				help := "it can be menu, dish, series or book"
				if near := diag.Nearest(args[0], startKinds()); near != "" {
					help = fmt.Sprintf("did you mean %s?", near)
				}
				return misused{fmt.Errorf("there is no new %q: %s", args[0], help)}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				o.Title = args[1]
			}
			return a.begun(cmd.Context(), args[0], o)
		},
	}
	cmd.Flags().StringVar(&o.For, "for", "", "for how many: `COUNT`")
	cmd.Flags().StringVar(&o.On, "on", "", "when a menu is on the table, or a series begins: `TIME` is such as \"2027-05-02 13:00\"")
	cmd.Flags().StringVar(&o.Cooks, "cooks", "", "who cooks: `NAMES` such as \"Nell, Omar\"")
	cmd.Flags().StringVarP(&o.out, "out", "o", "", "the `FILE` to write; its name is that of the title if not said")
	return cmd
}

// questions are what a kind of text wants to know, four at most.
func questions(kind string, o *start) []question {
	usual := starters[slices.IndexFunc(starters, func(s starter) bool { return s.kind == kind })]
	out := []question{{"What is it called?", usual.title, &o.Title, ""}}
	switch kind {
	case "menu":
		return append(out, question{"How many are at table?", usual.number, &o.For, "for"}, question{"When is it on the table, such as 2027-05-02 13:00?", "", &o.On, "on"}, question{"Who cooks?", "", &o.Cooks, "cooks"})
	case "series":
		return append(out, question{"For how many is each dish made?", usual.number, &o.For, "for"}, question{"When is the first evening, such as 2027-05-02 18:00?", "", &o.On, "on"})
	}
	return append(out, question{"For how many is the dish?", usual.number, &o.For, "for"})
}

// ask puts the questions that no flag has answered. An empty answer, or none, takes the usual.
func ask(in io.Reader, out io.Writer, all []question) {
	lines := bufio.NewScanner(in)
	for _, q := range all {
		if *q.to != "" {
			continue
		}
		usual := ""
		if q.usual != "" {
			usual = " [" + q.usual + "]"
		}
		fmt.Fprintf(out, "%s%s ", q.what, usual)
		if !lines.Scan() {
			fmt.Fprintln(out)
			return
		}
		*q.to = strings.TrimSpace(lines.Text())
	}
}

// asksHere tells whether somebody sits there who can answer.
func (a *app) asksHere() bool {
	in, ok := a.in.(*os.File)
	return ok && term.IsTerminal(int(in.Fd())) && a.onTerminal()
}

func (a *app) begun(ctx context.Context, kind string, o start) error {
	all := questions(kind, &o)
	if a.asksHere() {
		if _, err := await(ctx, func() (struct{}, error) { ask(a.in, a.out, all); return struct{}{}, nil }); err != nil {
			return err
		}
	}
	for _, q := range all {
		if *q.to == "" {
			*q.to = q.usual
		}
	}
	for flag, said := range map[string]string{"on": o.On, "cooks": o.Cooks} {
		if said != "" && !slices.ContainsFunc(all, func(q question) bool { return q.flag == flag }) {
			return fmt.Errorf("a %s says nothing of --%s", kind, flag)
		}
	}
	text, err := o.text(kind)
	if err != nil {
		return err
	}
	name := o.out
	if name == "" {
		name = fileName(o.Title) + load.Ending
	} else if !strings.HasSuffix(name, load.Ending) {
		return fmt.Errorf("%q does not end in %s, and would not be found: -o NAME%s", name, load.Ending, load.Ending)
	}
	text, left, err := beside(ctx, name, text)
	if err != nil {
		return err
	}
	if err := writeNew(name, text); err != nil {
		return err
	}
	a.written++
	fmt.Fprintf(a.out, "%s\n", name)
	if len(left) > 0 {
		fmt.Fprintf(a.errOut, "%s: there already, and used as it is\n", strings.Join(left, ", "))
	}
	fmt.Fprintf(a.errOut, "write yours over it, then: tamis check %s\n", name)
	return nil
}

// text is the new text, laid out. What was said is read first by itself, so that the
// complaint is of that.
func (o start) text(kind string) (string, error) {
	if n, err := strconv.Atoi(o.For); err != nil || n < 1 || n > 5000 {
		return "", fmt.Errorf("%q is no number of people: --for 6", o.For)
	}
	if o.On != "" {
		if _, ok := reads("menu X\n  covers 1\n  on the table " + o.On + "\n"); !ok {
			return "", fmt.Errorf("%q is no day and hour: write it as 2027-05-02 13:00", o.On)
		}
	}
	if o.Cooks != "" {
		if _, ok := reads("kitchen X\n  cooks " + o.Cooks + "\n"); !ok {
			return "", fmt.Errorf("%q are no names of cooks: write them as \"Nell, Omar\"", o.Cooks)
		}
	}
	title := strings.Join(strings.Fields(o.Title), " ")
	if strings.Contains(title, ",") {
		title = `"` + title + `"`
	}
	if !strings.ContainsFunc(title, func(c rune) bool { return unicode.IsLetter(c) || unicode.IsNumber(c) }) {
		return "", fmt.Errorf("%q cannot be a title: it has no letter and no figure", o.Title)
	}
	if _, ok := reads("dish " + title + "\n  serves 1\n"); !ok {
		return "", fmt.Errorf("%q cannot be a title: it may have no bar, bracket, colon, quote or plus", o.Title)
	}
	o.Title, o.Alone = title, kind == "dish"
	day, _, _ := strings.Cut(o.On, " ")
	each, _ := strconv.Atoi(o.For)
	amount := func(n int, small, large string) string {
		if n *= each; n >= 1000 {
			return strconv.FormatFloat(float64(n)/1000, 'f', -1, 64) + " " + large
		}
		return strconv.Itoa(n) + " " + small
	}
	t, err := template.New("").Funcs(template.FuncMap{
		"day": func() string { return day },
		"g":   func(n int) string { return amount(n, "g", "kg") }, // so much a head
		"ml":  func(n int) string { return amount(n, "ml", "litres") },
	}).Parse(starts)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	if err := t.ExecuteTemplate(&b, kind, o); err != nil {
		return "", err
	}
	text, ok := reads(strings.TrimLeft(b.String(), "\n"))
	if !ok {
		return "", fmt.Errorf("%q cannot be a title here", o.Title)
	}
	return text, nil
}

// reads lays a text out; ok is false where it has errors.
func reads(text string) (laid string, ok bool) {
	return format.Text(text, quantity.Options{})
}
