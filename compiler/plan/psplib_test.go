package plan

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// Readers for the published instances: PSPLIB's .sm and .mm (Kolisch & Sprecher, "PSPLIB - a
// project scheduling problem library", European Journal of Operational Research 96, 1996,
// 205-216) and ProGen/max's .sch (Schwindt 1998).

// numbers reads the whole numbers on a line; anything else on it is an error.
func numbers(line string) ([]int, error) {
	var list []int
	for _, f := range strings.Fields(line) {
		n, err := strconv.Atoi(strings.Trim(f, "[]"))
		if err != nil {
			return nil, err
		}
		list = append(list, n)
	}
	return list, nil
}

// errNoInstance says that a file is something else.
var errNoInstance = errors.New("no instance")

func readLines(path string) ([]string, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var lines []string
	scan := bufio.NewScanner(f)
	for scan.Scan() {
		lines = append(lines, scan.Text())
	}
	return lines, scan.Err()
}

// readInstance reads a published instance by the ending of its name.
func readInstance(path string) (*Problem, error) {
	lines, err := readLines(path)
	if err != nil {
		return nil, err
	}
	var p *Problem
	switch strings.ToLower(filepath.Ext(path)) {
	case ".sm", ".mm":
		p, err = readPatterson(lines)
	case ".sch":
		p, err = readMax(lines)
	default:
		err = fmt.Errorf("unknown ending")
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	p.Name, p.Goal = filepath.Base(path), Makespan
	return p, nil
}

// section returns the lines between the heading and the next line of stars.
func section(lines []string, heading string) []string {
	for i, l := range lines {
		if strings.HasPrefix(strings.TrimSpace(l), heading) {
			j := i + 1
			for j < len(lines) && !strings.HasPrefix(lines[j], "***") {
				j++
			}
			return lines[i+1 : j]
		}
	}
	return nil
}

// headerNumber finds "key ... : n" in the header.
func headerNumber(lines []string, key string) int {
	for _, l := range lines {
		if strings.Contains(l, key) {
			_, after, _ := strings.Cut(l, ":")
			if f := strings.Fields(after); len(f) > 0 {
				if n, err := strconv.Atoi(f[0]); err == nil {
					return n
				}
			}
		}
	}
	return -1
}

func readPatterson(lines []string) (*Problem, error) {
	p := &Problem{Horizon: headerNumber(lines, "horizon")}
	jobs := headerNumber(lines, "jobs (incl.")
	renewable, stock := headerNumber(lines, "- renewable"), headerNumber(lines, "- nonrenewable")
	if p.Horizon < 0 || jobs < 1 || renewable < 0 || stock < 0 {
		return nil, fmt.Errorf("%w: header incomplete", errNoInstance)
	}
	capacity := section(lines, "RESOURCEAVAILABILITIES")
	if len(capacity) < 2 {
		return nil, fmt.Errorf("no availabilities")
	}
	caps, err := numbers(capacity[1])
	if err != nil || len(caps) != renewable+stock {
		return nil, fmt.Errorf("availabilities: %v", caps)
	}
	for i, c := range caps {
		p.AddResource(Resource{Name: fmt.Sprint("R", i+1), Capacity: c, Stock: i >= renewable})
	}
	job := 0
	requests, order := section(lines, "REQUESTS/DURATIONS"), section(lines, "PRECEDENCE RELATIONS")
	if len(requests) < 2 || len(order) < 1 {
		return nil, fmt.Errorf("no requests, or no precedence relations")
	}
	for _, l := range requests[2:] {
		row, err := numbers(l)
		if err != nil {
			return nil, err
		}
		if len(row) == 0 {
			continue
		}
		if len(row) == len(caps)+3 {
			job = row[0]
			p.AddActivity(Activity{Name: fmt.Sprint(job)})
			row = row[1:]
		}
		if job < 1 || job > len(p.Activities) || len(row) != len(caps)+2 {
			return nil, fmt.Errorf("row %q", l)
		}
		m := Mode{Duration: row[1]}
		for r, amount := range row[2:] {
			if amount > 0 {
				m.Uses = append(m.Uses, Use{Of: []int{r}, Amount: amount})
			}
		}
		p.Activities[job-1].Modes = append(p.Activities[job-1].Modes, m)
	}
	for _, l := range order[1:] {
		row, err := numbers(l)
		if err == nil && len(row) == 0 {
			continue
		}
		if err != nil || len(row) < 3 || len(row) != 3+row[2] {
			return nil, fmt.Errorf("row %q", l)
		}
		for _, j := range row[3:] {
			p.AtLeast(EndOf(row[0]-1), StartOf(j-1), 0, "")
		}
	}
	if len(p.Activities) != jobs {
		return nil, fmt.Errorf("%d jobs of %d", len(p.Activities), jobs)
	}
	return p, nil
}

func readMax(lines []string) (*Problem, error) {
	var rows [][]int
	for _, l := range lines {
		row, err := numbers(l)
		if err != nil {
			return nil, err
		}
		if len(row) > 0 {
			rows = append(rows, row)
		}
	}
	if len(rows) == 0 {
		return nil, fmt.Errorf("%w: nothing in it", errNoInstance)
	}
	n := rows[0][0] + 2
	if n < 2 || len(rows) != 2*n+2 {
		return nil, fmt.Errorf("%d rows for %d activities", len(rows), n)
	}
	p := &Problem{}
	for r, c := range rows[2*n+1] {
		p.AddResource(Resource{Name: fmt.Sprint("R", r+1), Capacity: c})
	}
	for _, row := range rows[n+1 : 2*n+1] {
		if len(row) != 3+len(p.Resources) {
			return nil, fmt.Errorf("row %v", row)
		}
		m := Mode{Duration: row[2]}
		for r, amount := range row[3:] {
			if amount > 0 {
				m.Uses = append(m.Uses, Use{Of: []int{r}, Amount: amount})
			}
		}
		p.AddActivity(Activity{Name: fmt.Sprint(row[0]), Modes: []Mode{m}})
	}
	for i, row := range rows[1 : n+1] {
		if len(row) < 3 || row[2] < 0 || len(row) != 3+2*row[2] {
			return nil, fmt.Errorf("row %v", row)
		}
		s := row[2]
		longest := p.Activities[i].Modes[0].Duration
		for k := range s {
			p.AtLeast(StartOf(i), StartOf(row[3+k]), row[3+s+k], "")
			longest = max(longest, row[3+s+k])
		}
		p.Horizon += longest
	}
	return p, nil
}

// published is what is known of an instance: any makespan is at least lb, the best at most ub.
type published struct {
	lb, ub int
	status string // "optimal", "open" or "infeasible"
}

// readBounds reads what is known of the instances in a folder: bounds.csv there, or in the
// nearest folder above it, up to top. Its columns are instance, lb, ub and status, by name; a
// row that lacks one says nothing of it.
func readBounds(dir, top string) (map[string]published, error) {
	f, err := os.Open(filepath.Join(dir, "bounds.csv"))
	if os.IsNotExist(err) {
		if up := filepath.Dir(dir); up != dir && dir != filepath.Clean(top) {
			return readBounds(up, top)
		}
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer f.Close()
	read := csv.NewReader(f)
	read.FieldsPerRecord = -1
	rows, err := read.ReadAll()
	if err != nil || len(rows) == 0 {
		return nil, err
	}
	known := map[string]published{}
	for _, row := range rows[1:] {
		b := published{ub: maxTime, status: "open"}
		name := ""
		for i, cell := range row {
			if i == len(rows[0]) {
				break
			}
			n, wrong := strconv.Atoi(strings.TrimSpace(cell))
			switch title := strings.TrimSpace(rows[0][i]); {
			case title == "instance":
				name = filepath.Base(cell)
			case title == "lb" && wrong == nil:
				b.lb = n
			case title == "ub" && wrong == nil:
				b.ub = n
			case title == "status":
				b.status = cell
			}
		}
		known[name] = b
	}
	return known, nil
}
