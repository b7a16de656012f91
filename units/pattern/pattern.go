// Package pattern holds regular expressions that are compiled when they are
// first used: a program with two hundred of them, of which a command uses five,
// would spend longer on compiling than on its answer.
package pattern

import (
	"regexp"
	"sync"
)

// Pattern is a regular expression in the syntax of package regexp. Its methods
// are those of [regexp.Regexp]. Use it by the pointer that [New] gives.
type Pattern struct {
	expression string
	once       sync.Once
	compiled   *regexp.Regexp
}

// New is a pattern of that expression, not yet compiled. An expression that does
// not compile panics where it is first used; a test of the house
// (TestPatternsCompile) finds it before.
func New(expression string) *Pattern { return &Pattern{expression: expression} }

func (p *Pattern) get() *regexp.Regexp {
	p.once.Do(func() { p.compiled = regexp.MustCompile(p.expression) })
	return p.compiled
}

// MatchString is [regexp.Regexp.MatchString].
func (p *Pattern) MatchString(s string) bool { return p.get().MatchString(s) }

// FindString is [regexp.Regexp.FindString].
func (p *Pattern) FindString(s string) string { return p.get().FindString(s) }

// FindStringIndex is [regexp.Regexp.FindStringIndex].
func (p *Pattern) FindStringIndex(s string) []int { return p.get().FindStringIndex(s) }

// FindStringSubmatch is [regexp.Regexp.FindStringSubmatch].
func (p *Pattern) FindStringSubmatch(s string) []string { return p.get().FindStringSubmatch(s) }

// FindSubmatch is [regexp.Regexp.FindSubmatch].
func (p *Pattern) FindSubmatch(b []byte) [][]byte { return p.get().FindSubmatch(b) }

// FindAllString is [regexp.Regexp.FindAllString].
func (p *Pattern) FindAllString(s string, n int) []string { return p.get().FindAllString(s, n) }

// FindAllStringSubmatch is [regexp.Regexp.FindAllStringSubmatch].
func (p *Pattern) FindAllStringSubmatch(s string, n int) [][]string {
	return p.get().FindAllStringSubmatch(s, n)
}

// FindAllStringSubmatchIndex is [regexp.Regexp.FindAllStringSubmatchIndex].
func (p *Pattern) FindAllStringSubmatchIndex(s string, n int) [][]int {
	return p.get().FindAllStringSubmatchIndex(s, n)
}

// ReplaceAllString is [regexp.Regexp.ReplaceAllString].
func (p *Pattern) ReplaceAllString(s, by string) string { return p.get().ReplaceAllString(s, by) }

// ReplaceAllStringFunc is [regexp.Regexp.ReplaceAllStringFunc].
func (p *Pattern) ReplaceAllStringFunc(s string, by func(string) string) string {
	return p.get().ReplaceAllStringFunc(s, by)
}

// ReplaceAllFunc is [regexp.Regexp.ReplaceAllFunc].
func (p *Pattern) ReplaceAllFunc(b []byte, by func([]byte) []byte) []byte {
	return p.get().ReplaceAllFunc(b, by)
}

// Split is [regexp.Regexp.Split].
func (p *Pattern) Split(s string, n int) []string { return p.get().Split(s, n) }
