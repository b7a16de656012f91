package main

import (
	"bytes"
	"context"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// What is hardly meant is asked: a script is refused with the way to insist, and
// what it insists on is written to the last gram, with the doubt beside it.
func TestQuestionsBeforeHarm(t *testing.T) {
	for _, row := range []struct {
		says string
		args []string
	}{
		{"14.29 kg from tub-1 this season?", []string{"lift", "--planting", "tub-1", "--weighing", "12.62 kg - 0 g"}},
		{"pounds for kilograms?", []string{"lift", "--planting", "tub-1", "--weighing", "12.62 kg - 0 g"}},
		{"bowl 2, 0.98 kg, without a tare?", []string{"lift", "--planting", "bed-3", "--weighing", "0.8 kg - 0.31 kg", "--weighing", "0.98 kg"}},
		{"It was lifted at 2031-07-19 10:05, after that", []string{"use", "tub-1/20-45-sound", "100 g", "--at", "2031-07-18"}},
	} {
		g := newGarden(t)
		before := g.ok("journal", "export")
		out, errs, status := g.run(row.args...)
		assert.Equal(t, statusInput, status, row.says)
		assert.Empty(t, out)
		assert.Contains(t, errs, row.says)
		assert.Contains(t, errs, "--sure", "and how to insist")
		assert.Equal(t, before, g.ok("journal", "export"), "nothing is written")
		_, errs, status = g.run(append(row.args, "--sure")...)
		assert.Equal(t, statusDone, status, errs)
		assert.Contains(t, errs, "warning: ")
		assert.Contains(t, errs, row.says)
	}
	g := newGarden(t)
	g.ok("cooked", "Spring onion mash", "--amount", "6", "--at", "11:00")
	_, errs, status := g.run("eaten", "Spring onion mash", "--amount", "7")
	assert.Equal(t, statusInput, status)
	assert.Contains(t, errs, "7 of Spring onion mash? Only 6 is left of it\nhint: nothing was written; mend it, or add --sure")
	g.ok("eaten", "Spring onion mash", "--amount", "7", "--sure")
}

// At a terminal it is asked at once; no answer leaves all as it was.
func TestDoubtsAreAskedAtATerminal(t *testing.T) {
	g := newGarden(t)
	var out, errs bytes.Buffer
	env := &environment{in: strings.NewReader(""), person: true, out: &out, err: &errs, now: func() time.Time { return g.now }}
	status := run(context.Background(), env, []string{"lift", "--plot", g.dir, "--planting", "tub-1", "--weighing", "99 kg - 0 g"})
	assert.Equal(t, statusInput, status)
	assert.Contains(t, errs.String(), "Is that right as it is")
	assert.Contains(t, errs.String(), "nothing was written")
	assert.Empty(t, out.String())
}
