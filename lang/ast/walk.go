package ast

// Walk calls visit for every statement of a file, from top to bottom, a
// statement before those below it. When visit returns false, what is below is
// passed over.
func Walk(f *File, visit func(Node) bool) {
	for _, b := range f.Blocks {
		Inspect(b, visit)
	}
}

// Inspect is Walk for one statement and those below it.
func Inspect(n Node, visit func(Node) bool) {
	if !visit(n) {
		return
	}
	switch n := n.(type) {
	case *Menu:
		inspectAll(n.Items, visit)
	case *Course:
		inspectAll(n.Servings, visit)
	case *Serving:
		inspectAll(n.Pins, visit)
	case *Recipe:
		inspectAll(n.Items, visit)
	case *Gather:
		inspectAll(n.Items, visit)
	case *SubList:
		inspectAll(n.Items, visit)
	case *Choice:
		inspectAll(n.Options, visit)
	case *Option:
		inspectAll(n.Items, visit)
	case *Line:
		inspectAll(n.Instead, visit)
	case *Method:
		inspectAll(n.Items, visit)
	case *Change:
		inspectAll(n.Items, visit)
	case *Step:
		inspectAll(n.Moments, visit)
	case *Kitchen:
		inspectAll(n.Items, visit)
	case *Larder:
		inspectAll(n.Items, visit)
	case *Series:
		inspectAll(n.Items, visit)
	case *Part:
		inspectAll(n.Items, visit)
	case *Book:
		inspectAll(n.Items, visit)
	case *Chapter:
		if n.About != nil {
			Inspect(n.About, visit)
		}
		inspectAll(n.Refs, visit)
	}
}

func inspectAll[N Node](list []N, visit func(Node) bool) {
	for _, n := range list {
		Inspect(n, visit)
	}
}
