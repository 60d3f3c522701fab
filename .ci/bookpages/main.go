// Command bookpages reads a printed book with pdftotext and looks whether its numbers are
// true: that each page carries its own, that the contents name the page on which a recipe
// stands, and that what the index sends one to a page for is there.
package main

import (
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
)

func main() {
	for _, name := range os.Args[1:] {
		out, err := exec.Command("pdftotext", "-raw", name, "-").Output()
		if err != nil {
			fail("%s: %v", name, err)
		}
		pages := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
		for i := range pages {
			pages[i] = strings.Join(strings.Fields(strings.ReplaceAll(pages[i], "\u00a0", " ")), " ")
		}
		contents, index := -1, -1
		for i, p := range pages {
			if contents < 0 && strings.HasPrefix(p, "Contents ") {
				contents = i
			}
			if strings.HasPrefix(p, "Index ") {
				index = i
			}
			if i > 0 && !regexp.MustCompile(`\b`+strconv.Itoa(i+1)+`\b`).MatchString(p) {
				fail("%s: page %d does not say so", name, i+1)
			}
		}
		for i := range pages { // the number and the head stand last
			pages[i] = regexp.MustCompile(fmt.Sprintf(` %d( [^0-9]{0,60})?$`, i+1)).ReplaceAllString(pages[i], "")
		}
		if contents < 0 || index < 0 {
			fail("%s: no contents or no index", name)
		}
		entry := regexp.MustCompile(`([^\d,]+?) ((?:\d+, )*\d+)(?: |$)`)
		listed, things := 0, 0
		list := strings.TrimPrefix(pages[contents], "Contents ")
		for i := contents + 1; !strings.Contains(list, "Index "+strconv.Itoa(index+1)); i++ {
			list += " " + pages[i]
		}
		list = list[:strings.Index(list, "Index ")]
		for _, m := range entry.FindAllStringSubmatch(list, -1) {
			n, _ := strconv.Atoi(m[2])
			title := strings.TrimSpace(m[1])
			if n < 1 || n > len(pages) || !strings.Contains(pages[n-1], title) {
				fail("%s: the contents say that %q is on page %d", name, title, n)
			}
			listed++
		}
		_, list, _ = strings.Cut(strings.Join(pages[index:], " "), "is in bold. ")       // what the index says of itself
		thingAt := regexp.MustCompile(`((?:[^\d,]+, )?[^\d,]+?) ((?:\d+, )*\d+)(?: |$)`) // "tomatoes, plum 10, 18"
		for _, m := range thingAt.FindAllStringSubmatch(list, -1) {
			thing := regexp.MustCompile(`^([A-Z]|0–9) `).ReplaceAllString(strings.TrimSpace(m[1]), "")
			kind, _, _ := strings.Cut(thing, ", ")
			words := strings.Fields(kind)
			if len(words) == 0 {
				continue // the name itself ends in a number
			}
			last := strings.ToLower(words[len(words)-1])
			for _, s := range strings.Split(m[2], ", ") {
				n, _ := strconv.Atoi(s)
				if n < 1 || n > len(pages) {
					fail("%s: the index says %q on page %d of %d", name, thing, n, len(pages))
				}
				both := strings.ToLower(pages[n-1] + " " + pages[min(n, len(pages)-1)])
				if !strings.Contains(both, last[:max(len(last)-2, 1)]) {
					fail("%s: the index says %q on page %d, which does not have it", name, thing, n)
				}
				things++
			}
		}
		if listed < 3 || things < 10 {
			fail("%s: %d in the contents, %d in the index", name, listed, things)
		}
		fmt.Printf("ok %s: %d pages, %d in the contents, %d pages in the index\n", name, len(pages), listed, things)
	}
}

func fail(format string, args ...any) {
	fmt.Fprintf(os.Stderr, format+"\n", args...)
	os.Exit(1)
}
