package main

import (
	"fmt"
	"strings"
)

// difference shows how two texts differ, in the unified form, with two lines
// around each change; empty when they do not.
func difference(name, before, after string) string {
	a, b := strings.SplitAfter(before, "\n"), strings.SplitAfter(after, "\n")
	ops := script(a, b)
	var out strings.Builder
	const around = 2
	for i := 0; i < len(ops); {
		if ops[i].kind == ' ' {
			i++
			continue
		}
		from, to := max(0, i-around), i
		for k := i; k < len(ops) && k <= to+2*around; k++ {
			if ops[k].kind != ' ' {
				to = k
			}
		}
		end := min(len(ops), to+around+1)
		var la, lb int
		for _, o := range ops[from:end] {
			if o.kind != '+' {
				la++
			}
			if o.kind != '-' {
				lb++
			}
		}
		fmt.Fprintf(&out, "@@ -%d,%d +%d,%d @@\n", ops[from].a+1, la, ops[from].b+1, lb)
		for _, o := range ops[from:end] {
			if o.text == "" {
				continue
			}
			out.WriteByte(byte(o.kind))
			out.WriteString(strings.TrimSuffix(o.text, "\n") + "\n")
		}
		i = end
	}
	if out.Len() == 0 {
		return ""
	}
	return "--- " + name + "\n+++ " + name + "\n" + out.String()
}

type op struct {
	kind rune // ' ' kept, '-' taken out, '+' put in
	text string
	a, b int // line numbers from 0 in the two texts
}

// script turns a into b by the longest common subsequence of lines, after the
// common beginning and end. Fixes are few, so the middle is short.
func script(a, b []string) (out []op) {
	head := 0
	for head < len(a) && head < len(b) && a[head] == b[head] {
		out = append(out, op{' ', a[head], head, head})
		head++
	}
	tail := 0
	for tail < len(a)-head && tail < len(b)-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	x, y := a[head:len(a)-tail], b[head:len(b)-tail]
	table := make([][]int32, len(x)+1)
	for i := range table {
		table[i] = make([]int32, len(y)+1)
	}
	for i := len(x) - 1; i >= 0; i-- {
		for j := len(y) - 1; j >= 0; j-- {
			if x[i] == y[j] {
				table[i][j] = table[i+1][j+1] + 1
			} else {
				table[i][j] = max(table[i+1][j], table[i][j+1])
			}
		}
	}
	i, j := 0, 0
	for i < len(x) || j < len(y) {
		switch {
		case i < len(x) && j < len(y) && x[i] == y[j]:
			out = append(out, op{' ', x[i], head + i, head + j})
			i, j = i+1, j+1
		case j == len(y) || i < len(x) && table[i+1][j] >= table[i][j+1]:
			out = append(out, op{'-', x[i], head + i, head + j})
			i++
		default:
			out = append(out, op{'+', y[j], head + i, head + j})
			j++
		}
	}
	for k := range tail {
		out = append(out, op{' ', a[len(a)-tail+k], len(a) - tail + k, len(b) - tail + k})
	}
	return out
}
