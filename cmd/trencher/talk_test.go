package main

import (
	"bytes"
	"context"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typed runs a command with somebody at the keyboard who types the answers, and
// returns what stands on the screen.
func (g *garden) typed(answers string, args ...string) (out, screen string, status int) {
	g.t.Helper()
	var o, e bytes.Buffer
	env := &environment{in: strings.NewReader(answers), out: &o, err: &e, person: true, program: noProgram,
		now: func() time.Time { return g.now }, device: func() string { return "aaaaaa" }}
	status = run(context.Background(), env, append(args, "--plot", g.dir))
	return o.String(), e.String(), status
}

func (g *garden) answers(answers string, args ...string) (out, screen string) {
	g.t.Helper()
	out, screen, status := g.typed(answers, args...)
	require.Equal(g.t, statusDone, status, screen)
	return out, screen
}

// threeBowls is a lift of three bowls, keystroke by keystroke: the planting by
// its number, each bowl, and Enter for all that is offered.
const threeBowls = "3\n1.46-.31\n.98\n1.2\n\n\n\n\n\n\n"

// A lift of three bowls takes at most 40 keystrokes, and is shown once before it
// is written.
func TestALiftInFortyKeystrokes(t *testing.T) {
	require.LessOrEqual(t, len(threeBowls), 40)
	require.LessOrEqual(t, len("3\n1.46-0.31\n0.98-0.31\n1.2-0.31\n\n\n\n\n\n\n"), 45, "each tare typed out as well")
	g := newGarden(t)
	out, screen := g.answers(threeBowls, "lift")
	assert.Contains(t, out, ": 2.71 kg ", "1.46, 0.98 and 1.2 kg less 0.31 kg each")
	for _, says := range []string{"Lifted from? [1] ", "Bowl 1 in kg, full less empty, as 1.46 - 0.31? ", "Bowl 2, full alone if it is empty .31 kg as before (Enter: no more)? ",
		"2.71 kg so far", "2.71 kg, now:\n  bowl 1.46 kg less 0.31 kg\n  bowl 0.98 kg less 0.31 kg\n  bowl 1.2 kg less 0.31 kg\n  2.71 kg sound, not sorted\n", "Write it down (Enter: yes, n: no)? "} {
		assert.Contains(t, screen, says)
	}
	assert.NotContains(t, screen, "--", "no flag in a question")
	assert.Equal(t, 1, strings.Count(screen, "Write it down"))
}

// What makes no sense is told and asked for again; a doubt is asked about; a no
// and the end of the input leave everything as it was.
func TestALiftToldWithMistakes(t *testing.T) {
	g := newGarden(t)
	before := g.ok("journal", "export")
	for _, answers := range []string{"", "tub-1\n", "tub-1\n\n", "tub-1\n1 kg\n\n\n\n\n\nn\n", "tub-1\n1 kg\n\n\n\n\n\n"} {
		out, screen, status := g.typed(answers, "lift")
		assert.Equal(t, statusInput, status)
		assert.Empty(t, out)
		assert.Contains(t, screen, "nothing was written")
		assert.Equal(t, before, g.ok("journal", "export"), "%q", answers)
	}
	answers := "shed\nb\ntub-1\n1.46 - 0.31\n2 kg - 3 kg\n820\n980 g - 310 g\n\n1.82 tonne\n820 g 20-45 mm scabby\n\nsome\nn\nshed, paper sack\nsoon\nyesterday 18:00\nperhaps\n\n"
	out, screen := g.answers(answers, "lift", "--json")
	for _, says := range []string{`planting "shed": not in plantings.yaml`, "more than one begins so", "1.15 kg so far", "the empty bowl, 3 kg, weighs more than the full one, 2 kg",
		"820 kg - 0.31 kg is more than anybody lifts", "1.82 kg so far", "1.00 kg not sorted yet", `"some" is neither`, `"soon": not a time`,
		"tub-1, 1.82 kg, yesterday 18:00:", "  820 g 20-45 mm scabby (scrub or peel)\n  1.00 kg sound, not sorted\n  nothing is left in the ground; shed, paper sack", `"perhaps": Enter for yes, n for no`} {
		assert.Contains(t, screen, says)
	}
	assert.Contains(t, out, `"net_g": "1820"`)
	assert.NotContains(t, strings.ReplaceAll(screen, "hint: ", ""), "--")
	_, screen = g.answers("tub-1\n12.62\n\n\n\n\n\n\ny\n", "lift")
	assert.Contains(t, screen, "Is that right as it is", "a weight no garden gives")
}

// What was cooked: the whole plan in one step, or dish by dish; then eaten.
func TestCookedAndEatenAreAskedFor(t *testing.T) {
	g := newGarden(t)
	g.ok("share", "--take", "--only", "crushed", "--only", "spring")
	out, screen := g.answers("\n\n\n\n", "cooked") // all of the plan, now, nothing else, yes
	assert.Contains(t, screen, "  1  all of plan ")
	assert.Contains(t, screen, "What was cooked? [1] ")
	assert.Contains(t, screen, "What else was cooked (Enter: nothing)? ")
	assert.Contains(t, out, "Crushed potatoes with chives: cooked at ")
	assert.Contains(t, out, "Spring onion mash: cooked at ")

	out, screen = g.answers("bee\n3\n11:00\nsoup of mine\nsoup\n1.2 kg\n\n\n\n", "cooked")
	assert.Contains(t, screen, "No dish of this plot. What is it?")
	assert.NotContains(t, screen, "all of plan", "it is cooked already")
	assert.Contains(t, screen, "  Beetroot and potato with horseradish cooked, 3 portions, ")
	assert.Contains(t, screen, "  soup of mine cooked, 1.2 kg, ")
	assert.Contains(t, out, "Beetroot and potato with horseradish: cooked at 11:00, 3 portions")

	out, screen = g.answers("beet\n2\n\nsoup of\n\n\n\n\n", "eaten")
	assert.Contains(t, screen, "Beetroot and potato with horseradish, 3 portions left. ")
	assert.Contains(t, screen, "How much: portions, as 4, or a weight, as 600 g? [3] ")
	assert.Contains(t, out, "Beetroot and potato with horseradish: eaten at ")
	assert.Contains(t, out, "soup of mine: eaten at ")
	assert.NotContains(t, g.ok("keep"), "soup of mine", "all of it was eaten")

	before := g.ok("journal", "export")
	for _, args := range [][]string{{"cooked"}, {"eaten"}, {"chilled"}, {"out"}} {
		_, screen, status := g.typed("1\n", args...)
		assert.Equal(t, statusInput, status)
		assert.Contains(t, screen, "nothing was written")
		assert.NotContains(t, screen, "--")
	}
	assert.Equal(t, before, g.ok("journal", "export"))
}

// Somebody who breaks off with Ctrl-C in the middle of a question is let go.
func TestBreakingOff(t *testing.T) {
	g := newGarden(t)
	in, keyboard := io.Pipe()
	defer keyboard.Close()
	ctx, stop := context.WithCancel(context.Background())
	asked := make(signalled, 1)
	env := &environment{in: in, out: io.Discard, err: asked, person: true, program: noProgram, now: func() time.Time { return g.now }}
	go func() { <-asked; stop() }()
	assert.Equal(t, statusInput, run(ctx, env, []string{"lift", "--plot", g.dir}))
}

// signalled tells of the first thing written to it.
type signalled chan struct{}

func (s signalled) Write(text []byte) (int, error) {
	select {
	case s <- struct{}{}:
	default:
	}
	return len(text), nil
}
