package check

import (
	"strings"

	"tamis/compiler/larder"
	"tamis/lang/diag"
)

// chapterOfNothing warns of a name in a chapter that is no dish's.
var chapterOfNothing = &Rule{
	Code: "U323", Title: "A chapter that names nothing.", Family: Names, Severity: diag.Warning,
	What:    "A chapter of a book names a dish, and no block of the book is called so.",
	Why:     "The book is printed without it, and nobody misses what is not there.",
	Fix:     "Write the name as the dish has it; of one in a folder below, the folder and a slash before it.",
	Bad:     "book Ferry book\n  chapter Soups\n    Leak pot\n\ndish Leek pot\n  serves 4\n",
	At:      "3:5",
	Good:    "book Ferry book\n  chapter Soups\n    Leek pot\n\ndish Leek pot\n  serves 4\n",
	Sources: []string{"the Tamis notation, 2.19"},
	Whole:   true,
	Check: func(p *Pass) {
		for _, b := range p.Model.Books {
			if !b.Asked { // a book beside the one file that was asked for
				continue
			}
			placed, menus, named, own := b.Placed(p.Model.Recipes), map[string]bool{}, []string{}, []string{}
			for _, r := range p.Model.Recipes {
				named = append(named, r.Name)
				if b.Holds(r) {
					own = append(own, r.Name)
				}
			}
			for _, m := range p.Model.Menus {
				named = append(named, m.Name)
				menus[larder.Fold(m.Name)] = true
			}
			for _, c := range b.Chapters {
				for _, ref := range c.Names {
					short := strings.TrimSpace(ref.Text[strings.LastIndexByte(ref.Text, '/')+1:])
					if len(placed(ref)) > 0 || menus[larder.Fold(short)] {
						continue
					}
					d := p.Report(ref.Span, "there is no dish called %q in this book", ref.Text)
					near := diag.Nearest(short, own) // of this book first
					if near == "" {
						near = diag.Nearest(short, named)
					}
					if near != "" {
						d.Replace("write "+near, false, ref.Span, near).WithHelp("did you mean %q?", near)
						continue
					}
					d.WithHelp("write the recipe, or take the name out")
				}
			}
		}
	},
}
