package main

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// longestName is the most bytes of a file's name before its ending: every
// system takes 255 bytes with the ending, Windows 260 characters with the
// folders, and encrypted disks 143.
const longestName = 120

// reservedNames are devices on Windows, with any ending and in any case (Naming
// Files, Paths, and Namespaces, learn.microsoft.com; from memory).
var reservedNames = map[string]bool{"con": true, "prn": true, "aux": true, "nul": true}

func init() {
	for _, n := range "0123456789" {
		reservedNames["com"+string(n)] = true
		reservedNames["lpt"+string(n)] = true
	}
}

// fileName is a title as a file name that every system takes: small letters with
// their marks, digits and hyphens, not too long, and no device.
func fileName(title string) string {
	var s strings.Builder
	hyphen := false
	for _, c := range strings.ToLower(norm.NFC.String(strings.ToValidUTF8(title, " "))) {
		switch {
		case unicode.IsLetter(c) || unicode.IsDigit(c) || unicode.IsMark(c) && s.Len() > 0 && !hyphen:
			if hyphen {
				s.WriteByte('-')
			}
			hyphen = false
			s.WriteRune(c)
		case c == '\u200c' || c == '\u200d': // joiners, inside words of some scripts
		default:
			hyphen = s.Len() > 0
		}
	}
	name := shorten(s.String(), longestName)
	switch {
	case name == "":
		return "sheets"
	case reservedNames[name]:
		return name + "-sheets"
	}
	return name
}

// shorten cuts a name to at most n bytes: after a word if the last is not very
// long, and never between a letter and its mark.
func shorten(name string, n int) string {
	if len(name) <= n {
		return name
	}
	cut := n
	for c, _ := utf8.DecodeRuneInString(name[cut:]); cut > 0 && (!utf8.RuneStart(name[cut]) || unicode.IsMark(c)); c, _ = utf8.DecodeRuneInString(name[cut:]) {
		cut--
	}
	if at := strings.LastIndexByte(name[:cut+1], '-'); at > n/2 {
		cut = at
	}
	return name[:cut]
}

// fileNames returns a function that gives every title a name of its own, one
// that differs from the others by more than the size of letters: on some
// systems Leek.pdf and leek.pdf are one file.
func fileNames() func(title string) string {
	used := map[string]bool{}
	key := func(name string) string { return norm.NFKD.String(cases.Fold().String(name)) }
	return func(title string) string {
		base := fileName(title)
		name := base
		for n := 2; used[key(name)]; n++ {
			name = fmt.Sprintf("%s-%d", base, n)
		}
		used[key(name)] = true
		return name
	}
}
