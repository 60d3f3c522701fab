package draft

import (
	"regexp"
	"sync"
)

// pattern is an expression that is compiled when it is first wanted: a program that
// drafts nothing does not wait for some fifty of them.
type pattern func() *regexp.Regexp

func lazily(text string) pattern {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(text) })
}

func (p pattern) MatchString(s string) bool                  { return p().MatchString(s) }
func (p pattern) FindString(s string) string                 { return p().FindString(s) }
func (p pattern) FindStringSubmatch(s string) []string       { return p().FindStringSubmatch(s) }
func (p pattern) FindStringSubmatchIndex(s string) []int     { return p().FindStringSubmatchIndex(s) }
func (p pattern) ReplaceAllString(s, by string) string       { return p().ReplaceAllString(s, by) }
func (p pattern) Split(s string, n int) []string             { return p().Split(s, n) }
func (p pattern) FindAllStringIndex(s string, n int) [][]int { return p().FindAllStringIndex(s, n) }
func (p pattern) FindAllStringSubmatchIndex(s string, n int) [][]int {
	return p().FindAllStringSubmatchIndex(s, n)
}

func (p pattern) ReplaceAllStringFunc(s string, by func(string) string) string {
	return p().ReplaceAllStringFunc(s, by)
}
