package harvest

import (
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"

	"trencher/units/strict"
)

// Correct leaves out what later entries replace or void, and the voids
// themselves. A replacing lift keeps the lot names of the lift it corrects, so
// that what was used from it stays used.
//
// Devices that know nothing of each other may correct one entry twice, or have
// a correction before what it corrects. None of that is an error, and the order
// in which entries arrive changes nothing: of several corrections the latest
// counts, and a correction counts before a void, since it knows of something
// that was there; [Unsettled] names what was decided so.
//
// It returns strict.Errors for what no device writes: a correction of itself,
// of a void, or of another kind of entry.
func Correct(entries []Entry) (standing []Entry, roots map[string]string, err error) {
	c := correct(entries)
	return c.left(entries), c.roots, c.problems.err()
}

// left are the entries that nothing replaces or voids, without the voids.
func (c *corrections) left(entries []Entry) []Entry {
	standing := make([]Entry, 0, len(entries))
	for _, e := range entries {
		if _, gone := c.gone[e.Head().File]; !gone && e.Kind() != KindVoid {
			standing = append(standing, e)
		}
	}
	return standing
}

// Unsettled names the corrections that contradict each other, and those that
// came before what they correct.
func Unsettled(entries []Entry) []Warning { return correct(entries).open }

type corrections struct {
	byFile   map[string]Entry
	voided   map[string]bool   // files that an entry voids
	gone     map[string]Entry  // file -> the entry that replaces or voids it
	roots    map[string]string // replacing file -> the first file of its chain
	begins   map[string]string // file of a chain -> the first one, as far as chains were followed
	open     []Warning
	problems problems
}

func correct(entries []Entry) *corrections {
	c := &corrections{byFile: map[string]Entry{}, voided: map[string]bool{}, gone: map[string]Entry{}, roots: map[string]string{}, begins: map[string]string{}}
	if !slices.ContainsFunc(entries, isCorrection) {
		return c // as in most journals; a large one is not gone through for it
	}
	entries = slices.Clone(entries)
	SortEntries(entries)
	for _, e := range entries {
		c.byFile[e.Head().File] = e
	}
	for _, e := range entries {
		c.apply(e)
	}
	began, live := c.standing(entries)
	for _, root := range began {
		c.decide(root, live[root])
	}
	return c
}

// isCorrection tells an entry that names another one, which it replaces or voids.
func isCorrection(e Entry) bool { return e.Head().Replaces != "" || e.Kind() == KindVoid }

func (c *corrections) apply(e Entry) {
	head := e.Head()
	key, name := "replaces", head.Replaces
	if v, isVoid := e.(*Void); isVoid {
		key, name = "voids", v.Voids
	}
	if name == "" {
		return
	}
	file := Beside(head.File, name)
	target, ok := c.byFile[file]
	switch {
	case !ok:
		c.open = append(c.open, Waiting{head.File, file})
	case file == head.File:
		c.problems.add(head.wrong(key, "the entry names itself", "the name of the file it corrects"))
		return
	case target.Kind() == KindVoid:
		c.problems.add(head.wrong(key, fmt.Sprintf("%s strikes out another entry; that cannot be undone", name), "the entry anew"))
		return
	case key == "replaces" && target.Kind() != e.Kind():
		c.problems.add(head.wrong(key, fmt.Sprintf("%s is a %s, this is a %s", name, target.Kind(), e.Kind()), "an entry of the same kind, or one of kind: void"))
		return
	}
	c.gone[file] = e
	if key == "voids" {
		c.voided[file] = true
	} else {
		c.roots[head.File] = c.root(file)
	}
}

// standing lists the corrections that nothing corrects, by the entry that each
// chain of them began with. Entries come sorted, and so do they.
func (c *corrections) standing(entries []Entry) (began []string, live map[string][]Entry) {
	live = map[string][]Entry{}
	for _, e := range entries {
		file := e.Head().File
		root, corrects := c.roots[file]
		if _, gone := c.gone[file]; gone || !corrects {
			continue
		}
		if live[root] == nil {
			began = append(began, root)
		}
		live[root] = append(live[root], e)
	}
	return began, live
}

// decide lets the latest correction of an entry count, where several stand.
func (c *corrections) decide(root string, live []Entry) {
	counts := live[len(live)-1]
	conflict := Conflict{Entry: root, Counts: counts.Head().File}
	for _, e := range live {
		corrected := Beside(e.Head().File, e.Head().Replaces)
		conflict.Voided = conflict.Voided || c.voided[corrected]
		if e != counts {
			c.gone[e.Head().File] = counts
			conflict.Instead = append(conflict.Instead, e.Head().File)
		}
	}
	if len(live) > 1 || conflict.Voided {
		c.open = append(c.open, conflict)
	}
}

// root follows a chain of corrections back to the first entry, or to where it
// closes on itself. The chain may be read in any order, so it is followed by name,
// each part of it once.
func (c *corrections) root(file string) string {
	var passed []string
	at := map[string]int{} // where in passed
	for {
		e, ok := c.byFile[file]
		if known, followed := c.begins[file]; followed {
			file = known
			break
		} else if !ok || e.Head().Replaces == "" {
			break
		} else if i, closed := at[file]; closed {
			for _, each := range passed[i:] {
				c.begins[each] = each // of a ring, each is the first
			}
			passed = passed[:i]
			break
		}
		at[file] = len(passed)
		passed = append(passed, file)
		file = Beside(file, e.Head().Replaces)
	}
	for _, each := range passed {
		c.begins[each] = file
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
