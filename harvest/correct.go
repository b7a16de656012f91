package harvest

import (
	"errors"
	"fmt"
	"path"
	"strings"

	"trencher/units/strict"
)

// Correct leaves out what later entries replace or void, and the voids
// themselves. A replacing lift keeps the lot names of the lift it corrects, so
// that what was used from it stays used. Entries come sorted.
//
// It returns strict.Errors for a correction that names no entry, one of
// another kind, or one that is corrected twice.
func Correct(entries []Entry) (standing []Entry, roots map[string]string, err error) {
	c := corrections{byFile: map[string]Entry{}, gone: map[string]Entry{}, roots: map[string]string{}}
	for _, e := range entries {
		c.byFile[e.Head().File] = e
	}
	for _, e := range entries {
		c.apply(e)
	}
	for _, e := range entries {
		if _, gone := c.gone[e.Head().File]; !gone && e.Kind() != KindVoid {
			standing = append(standing, e)
		}
	}
	return standing, c.roots, c.problems.err()
}

type corrections struct {
	byFile   map[string]Entry
	gone     map[string]Entry  // file -> the entry that replaces or voids it
	roots    map[string]string // replacing file -> the first file of its chain
	problems problems
}

func (c *corrections) apply(e Entry) {
	head := e.Head()
	key, name := "replaces", head.Replaces
	if v, isVoid := e.(*Void); isVoid {
		key, name = "voids", v.Voids
	}
	if name == "" {
		return
	}
	target, ok := c.byFile[Beside(head.File, name)]
	switch {
	case !ok:
		c.problems.add(head.wrong(key, fmt.Sprintf("there is no entry %s in this season", name), "the name of a file in the same journal folder"))
	case target.Head().File == head.File:
		c.problems.add(head.wrong(key, "the entry names itself", "the name of the file it corrects"))
	case target.Kind() == KindVoid:
		c.problems.add(head.wrong(key, fmt.Sprintf("%s strikes out another entry; that cannot be undone", name), "the entry anew"))
	case key == "replaces" && target.Kind() != e.Kind():
		c.problems.add(head.wrong(key, fmt.Sprintf("%s is a %s, this is a %s", name, target.Kind(), e.Kind()), "an entry of the same kind, or one of kind: void"))
	default:
		c.strike(head, key, target.Head().File, e)
	}
}

func (c *corrections) strike(head *Header, key, file string, by Entry) {
	if other, twice := c.gone[file]; twice {
		c.problems.add(head.wrong(key, fmt.Sprintf("%s is corrected by %s already", file, other.Head().File), "an entry that voids one of the two corrections"))
		return
	}
	c.gone[file] = by
	if key == "replaces" {
		c.roots[head.File] = c.root(file)
	}
}

// root follows a chain of corrections back to the first entry. The chain may
// be read in any order, so it is followed by name, each file once.
func (c *corrections) root(file string) string {
	seen := map[string]bool{}
	for !seen[file] {
		seen[file] = true
		e, ok := c.byFile[file]
		if !ok || e.Head().Replaces == "" {
			return file
		}
		file = Beside(file, e.Head().Replaces)
	}
	return file
}

// Beside turns the name in a replaces or voids key into the path of a file in
// the same folder: the bare file name, with or without its ending, or the
// whole path.
func Beside(file, name string) string {
	if !strings.HasSuffix(name, ".yaml") && !strings.HasSuffix(name, ".yml") {
		name += ".yaml"
	}
	return path.Join(path.Dir(file), path.Base(name))
}

// problems collects what is wrong across entries.
type problems struct{ found strict.Errors }

func (p *problems) add(e *strict.Error) { p.found = append(p.found, e) }

// join takes over the errors of an earlier step.
func (p *problems) join(err error) {
	var several strict.Errors
	if errors.As(err, &several) {
		p.found = append(p.found, several...)
	}
}

func (p *problems) err() error {
	if len(p.found) == 0 {
		return nil
	}
	return p.found
}
