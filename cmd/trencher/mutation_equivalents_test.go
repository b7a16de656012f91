package main

import (
	"fmt"
	"os"
	"path"
	"slices"
	"strings"
)

// An equivalent is a mutant that changes nothing a test could see, with the
// reason why.
type equivalent struct {
	line           int // in the list
	file, function string
	was, now, why  string
}

// readEquivalents reads the list: one paragraph each, `#` begins a remark.
//
//	in:  recipes/heat/body.go Body.Warm
//	was: if warm < limit {
//	now: if warm <= limit {
//	why: at the limit both branches give the limit
//
// The lines are the source's own, as a survivor prints them, so that an entry
// holds wherever in its function the line moves.
func readEquivalents(file string) ([]equivalent, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	var all []equivalent
	var now equivalent
	for i, line := range append(strings.Split(string(data), "\n"), "") {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "#") {
			continue
		}
		if line == "" {
			if now.line > 0 {
				if err := now.whole(); err != nil {
					return nil, fmt.Errorf("%s:%d: %w", file, now.line, err)
				}
				all = append(all, now)
			}
			now = equivalent{}
			continue
		}
		if now.line == 0 {
			now.line = i + 1
		}
		if !now.read(line) {
			return nil, fmt.Errorf("%s:%d: want a line beginning in:, was:, now: or why:", file, i+1)
		}
	}
	return all, nil
}

func (e *equivalent) read(line string) bool {
	key, value, _ := strings.Cut(line, ":")
	value = strings.TrimSpace(value)
	switch key {
	case "in":
		e.file, e.function, _ = strings.Cut(value, " ")
	case "was":
		e.was = value
	case "now":
		e.now = value
	case "why":
		e.why = value
	default:
		return false
	}
	return true
}

func (e *equivalent) whole() error {
	for _, part := range []struct{ key, value string }{{"in", e.file}, {"in", e.function}, {"was", e.was}, {"now", e.now}, {"why", e.why}} {
		if part.value == "" {
			return fmt.Errorf("an equivalent mutant without `%s:`", part.key)
		}
	}
	return nil
}

func (e *equivalent) is(m mutant) bool {
	return e.file == m.file && e.function == m.function && e.was == m.was && e.now == m.now
}

// setAside takes the listed mutants out of all.
func setAside(all []mutant, listed []equivalent) (left []mutant) {
	for _, m := range all {
		if !slices.ContainsFunc(listed, func(e equivalent) bool { return e.is(m) }) {
			left = append(left, m)
		}
	}
	return left
}

// gone names the listed ones that are no mutant of the source any more: the line
// has changed, and the reason may not hold.
func gone(root string, listed []equivalent) (missing []equivalent) {
	known := map[string][]mutant{}
	for _, e := range listed {
		pkg := path.Dir(e.file)
		if _, read := known[pkg]; !read {
			known[pkg], _ = mutantsOf(root, pkg) // a package that is no more has no mutants
		}
		if !slices.ContainsFunc(known[pkg], e.is) {
			missing = append(missing, e)
		}
	}
	return missing
}
