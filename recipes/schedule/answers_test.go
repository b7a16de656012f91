package schedule_test

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/schedule"
)

const answersFile = "../../testdata/schedule/answers.txt"

var updateAnswers = flag.Bool("update-answers", false, "write down today's timetables; read what of each differs")

// Timetables of random problems to the minute, with the orders they took to find, as
// they were when somebody last looked: that they are the best there are is for the
// tests beside it to say, which try everything or ask another program; this one notices
// that a search has become another, or more work.
func TestTimetablesStayAsTheyAre(t *testing.T) {
	random := rand.New(rand.NewPCG(20, 26))
	var lines []string
	add := func(name string, p schedule.Problem) {
		got, err := schedule.Solve(t.Context(), p)
		require.NoError(t, err, name)
		requireSound(t, p, got)
		lines = append(lines, fmt.Sprintf("%s: %d orders, cost %v, bound %v:%s", name, got.Nodes, got.Cost, got.Bound, begun(got.Steps)))
	}
	for n := range 300 {
		add(fmt.Sprint("small ", n), randomSmall(random, 6))
	}
	for n := range 45 {
		p := randomEvening(random, 2+n%5)
		for i := range p.Steps {
			p.Steps[i].Soon = strings.HasPrefix(p.Steps[i].ID, "pick") || strings.HasPrefix(p.Steps[i].ID, "crust")
		}
		p.NodeLimit = [...]int{300, 90, 25}[n%3]
		add(fmt.Sprint("evening ", n), p)
	}
	for n := range 40 {
		plan, err := schedule.Solve(t.Context(), randomSmall(random, 6))
		require.NoError(t, err)
		progress := schedule.Progress{Began: map[string]bool{}, Ended: map[string]time.Time{}, Longer: map[string]time.Duration{}}
		for i, s := range plan.Steps {
			if i < len(plan.Steps)/2 {
				progress.Began[s.ID] = true
				switch random.IntN(3) {
				case 0:
					progress.Longer[s.ID] = minutes(random.IntN(4))
				case 1:
					progress.Ended[s.ID] = s.End().Add(minutes(random.IntN(4) - 2))
				}
			}
		}
		have := schedule.Have{Hands: 1 + random.IntN(2), Trays: random.IntN(2)}
		lines = append(lines, fmt.Sprintf("late %d:%s", n, begun(schedule.Later(plan.Steps, have, progress, minutes(random.IntN(5))))))
	}
	for _, patience := range []int{12, 25, 40, 90} { // given up on the way, again and again
		for n := range 15 {
			p := randomEvening(random, 3+n%5)
			p.NodeLimit = patience
			add(fmt.Sprintf("%d orders, evening %d", patience, n), p)
		}
	}
	if *updateAnswers {
		require.NoError(t, os.WriteFile(answersFile, []byte(strings.Join(lines, "\n")+"\n"), 0o644))
	}
	data, err := os.ReadFile(answersFile)
	require.NoError(t, err)
	want := strings.Split(strings.TrimSuffix(string(data), "\n"), "\n")
	require.Len(t, lines, len(want))
	for i := range want {
		assert.Equal(t, want[i], lines[i])
	}
}

// begun are steps by their minutes before serving, with their rings.
func begun(steps []schedule.Timed) string {
	var b strings.Builder
	for _, s := range steps {
		fmt.Fprintf(&b, " %s %d", s.ID, int(supper.Sub(s.At).Minutes()))
		if s.Ring > 0 {
			fmt.Fprintf(&b, " ring %d", s.Ring)
		}
	}
	return b.String()
}
