// Package jsonld writes the recipes of a document as schema.org Recipes in JSON-LD, at
// their written size and in the words they were written in. What schema.org has no word for,
// the margin of a step, stands as a HowToTip in the words of the notation, so that `tamis
// draft` reads it back and everybody else still sees it.
//
// The terms (Recipe, HowToStep, HowToSection, HowToDirection, HowToTip and their properties)
// are those of schema.org's vocabulary, from memory; .ci/exchange.mjs holds them to it.
package jsonld

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"
	"time"

	"tamis/compiler/sheets"
	"tamis/render/runes"
)

type graph struct {
	Context string   `json:"@context"`
	Graph   []recipe `json:"@graph"`
}

type recipe struct {
	Type         string   `json:"@type"`
	Name         string   `json:"name"`
	Alternate    []string `json:"alternateName,omitempty"`
	Author       []person `json:"author,omitempty"`
	Description  string   `json:"description,omitempty"`
	Credit       []string `json:"creditText,omitempty"`
	URL          []string `json:"url,omitempty"`
	Yield        []string `json:"recipeYield,omitempty"`
	Total        string   `json:"totalTime,omitempty"`
	Prep         string   `json:"prepTime,omitempty"`
	Tool         []string `json:"tool,omitempty"`
	Ingredient   []string `json:"recipeIngredient,omitempty"`
	Instructions []step   `json:"recipeInstructions,omitempty"`
}

type person struct {
	Type string `json:"@type"`
	Name string `json:"name"`
}

type step struct {
	Type     string `json:"@type"`
	Name     string `json:"name,omitempty"`
	Text     string `json:"text,omitempty"`
	Duration string `json:"timeRequired,omitempty"`
	Items    []step `json:"itemListElement,omitempty"`
}

// ErrNoRecipe says that a document has no recipe that could be written.
var ErrNoRecipe = errors.New("there is no recipe in it to write as JSON-LD: build the file or folder that has the recipes")

// Write writes the recipes of doc. It fails with ErrNoRecipe where there is none, else only
// when w does.
func Write(w io.Writer, doc *sheets.Document) error {
	if len(doc.Recipes) == 0 {
		return ErrNoRecipe
	}
	out := graph{Context: "https://schema.org", Graph: []recipe{}}
	for i := range doc.Recipes {
		out.Graph = append(out.Graph, recipeOf(&doc.Recipes[i]))
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	// < and > stay escaped: a page puts this inside a script element
	if err := e.Encode(out); err != nil {
		return fmt.Errorf("jsonld: %w", err)
	}
	return nil
}

func recipeOf(r *sheets.Recipe) recipe {
	out := recipe{
		Type: "Recipe", Name: runes.Clean(r.Name), Alternate: clean(r.Also), Description: lines(r.About), Credit: clean(r.Source), URL: clean(r.Links), Tool: clean(r.Equipment),
		Total: Duration(r.Takes), Prep: Duration(r.Work),
	}
	for _, by := range r.By {
		out.Author = append(out.Author, person{"Person", runes.Clean(by)})
	}
	if r.Serves != "" {
		out.Yield = append(out.Yield, r.Serves+" servings")
	}
	if r.Makes != "" {
		out.Yield = append(out.Yield, runes.Clean(r.Makes))
	}
	if len(r.PercentOf) > 0 {
		out.Ingredient = append(out.Ingredient, "In per cent of "+runes.Clean(strings.Join(r.PercentOf, ", "))+":")
	}
	list, option := "", ""
	for _, l := range r.Lines {
		switch {
		case l.Option != option && l.Option != "":
			out.Ingredient = append(out.Ingredient, strings.ToUpper(l.Option[:1])+runes.Clean(l.Option[1:])+":")
		case l.List != list && l.List != "":
			out.Ingredient = append(out.Ingredient, "For the "+runes.Clean(l.List)+":")
		case l.Option != option || l.List != list: // a part of the list is over
			out.Ingredient = append(out.Ingredient, "Besides:")
		}
		list, option = l.List, l.Option
		out.Ingredient = append(out.Ingredient, runes.Clean(l.Text))
	}
	for _, l := range r.Lines {
		for _, in := range l.Instead {
			out.Instructions = append(out.Instructions, step{Type: "HowToTip", Text: runes.Clean(l.Name + ": instead " + in)})
		}
		if len(l.Margin) > 0 {
			out.Instructions = append(out.Instructions, step{Type: "HowToTip", Text: runes.Clean(l.Name + ": " + strings.Join(l.Margin, "; "))})
		}
	}
	for _, s := range r.Steps {
		x := step{Type: "HowToStep", Text: runes.Clean(s.Text), Duration: Duration(s.Lasts)}
		if s.Above != "" {
			out.Instructions = append(out.Instructions, step{Type: "HowToTip", Text: runes.Clean(s.Above)})
		}
		if len(s.Margin) > 0 {
			x.Items = append(x.Items, step{Type: "HowToTip", Text: runes.Clean(strings.Join(s.Margin, "; "))})
		}
		for _, in := range s.Inside {
			x.Items = append(x.Items, step{Type: "HowToDirection", Text: runes.Clean(in)})
		}
		out.Instructions = append(out.Instructions, x)
	}
	for _, end := range r.Ends {
		out.Instructions = append(out.Instructions, step{Type: "HowToTip", Text: runes.Clean(end)})
	}
	return out
}

func clean(list []string) (out []string) {
	for _, s := range list {
		out = append(out, runes.Clean(s))
	}
	return out
}

// lines cleans a text line by line. Lines that are broken only because a file is narrow are
// one, for others take each for a paragraph.
func lines(s string) string {
	var out []string
	goesOn := false
	for l := range strings.SplitSeq(s, "\n") {
		hard := strings.HasSuffix(l, "  ") || strings.HasSuffix(l, `\`)
		l = runes.Clean(l)
		if goesOn && l != "" && !begins.MatchString(l) {
			out[len(out)-1] += " " + l
		} else {
			out = append(out, l)
		}
		goesOn = l != "" && !hard
	}
	return strings.Join(out, "\n")
}

// begins is the first sign of what Markdown begins anew: an item, a quotation, a heading.
var begins = regexp.MustCompile(`^(?:[-*+>#]|\d+[.)])\s`)

// Duration is a length of time as ISO 8601 has it, "PT1H30M"; empty for none.
func Duration(d time.Duration) string {
	if d <= 0 {
		return ""
	}
	out := "PT"
	if h := d / time.Hour; h > 0 {
		out += fmt.Sprintf("%dH", h)
	}
	if m := d % time.Hour / time.Minute; m > 0 {
		out += fmt.Sprintf("%dM", m)
	}
	if s := d % time.Minute / time.Second; s > 0 {
		out += fmt.Sprintf("%dS", s)
	}
	return out
}
