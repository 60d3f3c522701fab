package ast

import (
	"fmt"
	"reflect"

	"tamis/lang/quantity"
	"tamis/lang/source"
)

// Equal tells whether two trees say the same, comments and all. It passes over
// places, over blank lines, over quotes that a name did not need, and over the
// way an amount was written (1/2 or 0.5).
func Equal(a, b *File) bool { return Difference(a, b) == "" }

// Difference names the first place in which two trees differ, for tests:
// "Blocks[0].Items[2].Count: 6, 8". It is "" when they are Equal.
func Difference(a, b *File) string {
	return difference(reflect.ValueOf(a), reflect.ValueOf(b), "")
}

var (
	spanType   = reflect.TypeFor[source.Span]()
	fileType   = reflect.TypeFor[*source.File]()
	numberType = reflect.TypeFor[quantity.Number]()
	unitType   = reflect.TypeFor[*quantity.Unit]()
	lineType   = reflect.TypeFor[Line]()
	nameType   = reflect.TypeFor[Name]()
)

func difference(a, b reflect.Value, path string) string {
	if a.IsValid() != b.IsValid() || a.IsValid() && a.Type() != b.Type() {
		return path + ": another kind of statement"
	}
	if !a.IsValid() {
		return ""
	}
	switch a.Type() {
	case spanType, fileType:
		return ""
	case numberType:
		if a.Interface().(quantity.Number).Equal(b.Interface().(quantity.Number)) {
			return ""
		}
		return differs(a, b, path)
	case unitType:
		x, y := a.Interface().(*quantity.Unit), b.Interface().(*quantity.Unit)
		if x == y || x != nil && y != nil && x.Name == y.Name {
			return ""
		}
		return differs(a, b, path)
	}
	switch a.Kind() {
	case reflect.Pointer, reflect.Interface:
		if a.IsNil() || b.IsNil() {
			if a.IsNil() == b.IsNil() {
				return ""
			}
			return path + ": there and not there"
		}
		return difference(a.Elem(), b.Elem(), path)
	case reflect.Struct:
		for i := range a.NumField() {
			f := a.Type().Field(i).Name
			if a.Type() == lineType && f == "AmountAt" || a.Type() == nameType && f == "Quoted" || f == "Gap" {
				continue
			}
			if d := difference(a.Field(i), b.Field(i), path+"."+f); d != "" {
				return d
			}
		}
		return ""
	case reflect.Slice:
		if a.Len() != b.Len() {
			return fmt.Sprintf("%s: %d and %d of them", path, a.Len(), b.Len())
		}
		for i := range a.Len() {
			if d := difference(a.Index(i), b.Index(i), fmt.Sprintf("%s[%d]", path, i)); d != "" {
				return d
			}
		}
		return ""
	}
	if !a.Equal(b) {
		return differs(a, b, path)
	}
	return ""
}

func differs(a, b reflect.Value, path string) string {
	return fmt.Sprintf("%s: %v, %v", path, a.Interface(), b.Interface())
}
