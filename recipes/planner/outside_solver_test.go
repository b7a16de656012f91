package planner

import (
	"fmt"
	"math"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// An outsider is a general-purpose solver of integer programs that is not ours.
type outsider struct {
	name, program string
	// solve runs it on a file in the LP format, and returns the values of the
	// unknowns, which stand in the file in the order of their names.
	solve func(q *told, file string) (values map[string]float64, feasible, late bool)
}

// The GNU Linear Programming Kit's glpsol, and the COIN-OR project's branch and
// cut, cbc.
var outsiders = []outsider{
	{"GLPK", "glpsol", solveByGLPK},
	{"CBC", "cbc", solveByCBC},
}

// A told problem is a sharing problem written for an outsider as it is told in
// words: one flow for each lot and need, one number for each guest group, dish
// and round. It shares nothing with the planner's own rows.
type told struct {
	t       testing.TB
	p       Problem
	by      outsider
	seconds int           // of processor time, a question
	took    time.Duration // processor time of all questions
	late    bool

	names  []string
	known  map[string]bool
	rows   []string
	bounds []string
	whole  []string
}

type sum map[string]float64

func (s sum) add(name string, coef float64) { s[name] += coef }

// answerOf takes a problem through all levels. It returns nil when no dish can be
// made, or everything comes too late.
func answerOf(t testing.TB, p Problem, by outsider, seconds int) (a *answer, late bool) {
	q := tell(t, p, by, seconds)
	a = q.climb()
	return a, q.late
}

// tell writes the problem down for an outsider.
func tell(t testing.TB, p Problem, by outsider, seconds int) *told {
	q := &told{t: t, p: p, by: by, seconds: seconds, known: map[string]bool{}}
	q.supply()
	q.people()
	return q
}

func (q *told) name(format string, args ...any) string {
	n := fmt.Sprintf(format, args...)
	if !q.known[n] {
		q.known[n] = true
		q.names = append(q.names, n)
	}
	return n
}

func (q *told) integer(most float64, format string, args ...any) string {
	n := q.name(format, args...)
	q.whole = append(q.whole, n)
	q.bounds = append(q.bounds, fmt.Sprintf("%s <= %.0f", n, most))
	return n
}

// row writes Σ terms (<=, >=, =) limit.
func (q *told) row(s sum, sign string, limit float64) {
	q.rows = append(q.rows, q.written(s)+" "+sign+" "+strconv.FormatFloat(limit, 'f', -1, 64))
}

func (q *told) written(s sum) string {
	var b strings.Builder
	for _, n := range q.names {
		if c := s[n]; c != 0 {
			fmt.Fprintf(&b, " %+.12g %s", c, n)
		}
	}
	if b.Len() == 0 {
		return "0 " + q.names[0]
	}
	return b.String()
}

// supply writes batches, flows, limits, the steamer and the number of dishes. The
// flows out of lots to be used today are named u…, the others f….
func (q *told) supply() {
	made := sum{}
	for d, dish := range q.p.Dishes {
		smallest := float64(max(1, dish.Smallest))
		x, z := q.integer(float64(dish.Largest), "x%d", d), q.integer(1, "z%d", d)
		q.row(sum{x: 1, z: -smallest}, ">=", 0)
		q.row(sum{x: 1, z: -float64(dish.Largest)}, "<=", 0)
		made.add(z, 1)
	}
	if q.p.MostDishes > 0 {
		q.row(made, "<=", float64(q.p.MostDishes))
	}
	out, first := make([]sum, len(q.p.Lots)), sum{}
	for l := range out {
		out[l] = sum{}
	}
	for d, dish := range q.p.Dishes {
		for k, n := range dish.Needs {
			den, _ := new(big.Rat).SetInt(n.PerPortion.Denom()).Float64()
			num, _ := new(big.Rat).SetInt(n.PerPortion.Num()).Float64()
			drawn := sum{fmt.Sprintf("x%d", d): -num}
			for l, lot := range q.p.Lots {
				if takes(n, lot) {
					f := q.name("f%d_%d_%d", l, d, k)
					drawn.add(f, den)
					out[l].add(f, 1)
					if lot.First {
						first.add(f, 1)
					}
				}
			}
			q.row(drawn, "=", 0)
		}
	}
	for l, lot := range q.p.Lots {
		supply, _ := lot.Supply.Float64()
		q.row(out[l], "<=", supply)
	}
	first.add(q.integer(1e6, "tens"), -10)
	q.row(first, ">=", 0)
	q.limits()
	q.steamer()
}

func (q *told) limits() {
	for _, l := range q.p.Limits {
		s := sum{}
		for d, dish := range q.p.Dishes {
			for _, o := range dish.Others {
				if o.Item == l.Item {
					f, _ := o.PerPortion.Float64()
					s.add(fmt.Sprintf("x%d", d), f)
				}
			}
		}
		amount, _ := l.Amount.Float64()
		q.row(s, "<=", amount)
	}
	for _, k := range q.p.KeepBack {
		s, left := sum{}, new(big.Rat).Neg(k.Grams)
		for _, lot := range q.p.Lots {
			if lot.Crop == k.Crop {
				left.Add(left, lot.Supply.Rat())
			}
		}
		for d, dish := range q.p.Dishes {
			for _, n := range dish.Needs {
				if n.Crop == k.Crop {
					f, _ := n.PerPortion.Float64()
					s.add(fmt.Sprintf("x%d", d), f)
				}
			}
		}
		grams, _ := left.Float64()
		q.row(s, "<=", grams)
	}
}

func (q *told) steamer() {
	if q.p.Layers == 0 {
		return
	}
	load := map[string]sum{}
	for d, dish := range q.p.Dishes {
		for _, n := range dish.Needs {
			if n.Load.PerPortion != nil {
				if load[n.Load.Class] == nil {
					load[n.Load.Class] = sum{}
				}
				f, _ := n.Load.PerPortion.Float64()
				load[n.Load.Class].add(fmt.Sprintf("x%d", d), f)
			}
		}
	}
	all := sum{}
	for class, s := range load {
		layers := q.integer(100, "layers%s", class)
		s.add(layers, -1)
		q.row(s, "<=", 0)
		all.add(layers, 1)
	}
	q.row(all, "<=", float64(q.p.Layers))
}

// people writes who eats what: y… helpings of a group of a dish, w… the people of
// a group with at least so many helpings, o… the portions over, b… that a dish is
// cooked beyond its smallest batch.
func (q *told) people() {
	if q.p.Guests == nil {
		return
	}
	halves := make([]sum, len(q.p.Dishes)) // what is cooked less what is eaten, in half portions
	taken := make([]sum, len(q.p.Dishes))
	for d := range halves {
		halves[d], taken[d] = sum{fmt.Sprintf("x%d", d): 2}, sum{fmt.Sprintf("z%d", d): -1}
	}
	for g, guest := range q.p.Guests {
		people, helpings := float64(guest.Count), sum{}
		for d := range q.p.Dishes {
			if !guest.Suits[d] {
				continue
			}
			y := q.integer(people, "y%d_%d", g, d)
			helpings.add(y, 1)
			taken[d].add(y, 1)
			if guest.Child {
				halves[d].add(y, -1)
			} else {
				halves[d].add(y, -2)
			}
		}
		for r := range q.p.Sides {
			helpings.add(q.integer(people, "w%d_%d", g, r), -1)
		}
		q.row(helpings, "=", 0)
	}
	for d, dish := range q.p.Dishes {
		smallest, largest := float64(max(1, dish.Smallest)), float64(dish.Largest)
		x, b, o := fmt.Sprintf("x%d", d), q.integer(1, "b%d", d), q.integer(largest, "o%d", d)
		q.row(halves[d], ">=", 0)
		q.row(taken[d], ">=", 0)
		q.row(sum{x: 1, b: smallest - largest}, "<=", smallest)
		beyond := sum{b: 2 * largest}
		over := sum{o: -2}
		for n, c := range halves[d] {
			beyond.add(n, c)
			over.add(n, c)
		}
		q.row(beyond, "<=", 1+2*largest)
		q.row(over, ">=", 0)
		q.row(over, "<=", 1)
	}
}

// climb asks for one level after another and holds each.
func (q *told) climb() *answer {
	a := &answer{balance: new(big.Rat)}
	if q.p.Guests != nil {
		for r := range q.p.Sides {
			s := sum{}
			for g := range q.p.Guests {
				s.add(fmt.Sprintf("w%d_%d", g, r), 1)
			}
			a.fed = append(a.fed, q.best(s))
		}
		s := sum{}
		for d := range q.p.Dishes {
			s.add(fmt.Sprintf("o%d", d), -1)
		}
		a.over = -q.best(s)
	}
	a.use = big.NewRat(10*int64(q.best(sum{"tens": 1})), 1)
	made, portions := sum{}, sum{}
	for d := range q.p.Dishes {
		made.add(fmt.Sprintf("z%d", d), 1)
		portions.add(fmt.Sprintf("x%d", d), 1)
	}
	switch {
	case q.p.Guests == nil:
		a.dishes = q.best(made)
		a.balance = q.balance()
		a.portions = q.best(portions)
	case q.p.ManyDishes:
		a.dishes = q.best(made)
		a.portions = -q.best(portions.negative())
		a.balance = q.balance()
	default:
		a.dishes = -q.best(made.negative())
		a.portions = -q.best(portions.negative())
		a.balance = q.balance()
	}
	a.x = make([]int, len(q.p.Dishes))
	for i := range q.p.Dishes {
		d := i
		if q.p.Ties != nil {
			d = q.p.Ties[i]
		}
		a.x[d] = q.best(sum{fmt.Sprintf("x%d", d): 1})
	}
	if a.dishes == 0 {
		return nil
	}
	return a
}

func (s sum) negative() sum {
	n := sum{}
	for name, c := range s {
		n[name] = -c
	}
	return n
}

// best is the largest value of a sum of whole numbers, which is then held.
func (q *told) best(goal sum) int {
	values := q.ask(goal)
	worth := 0.0
	for n, c := range goal {
		worth += c * values[n]
	}
	q.row(goal, ">=", math.Round(worth))
	return int(math.Round(worth))
}

// balance is the largest t with x ≥ t × wish of the dishes made, as the exact
// ratio at the answer, which is then held in whole portions.
func (q *told) balance() *big.Rat {
	most := 0.0
	for _, dish := range q.p.Dishes {
		wish, _ := dish.Wish.Float64()
		most = max(most, float64(dish.Largest)/wish)
	}
	t := q.name("t")
	q.bounds = append(q.bounds, fmt.Sprintf("%s <= %.12g", t, most))
	for d, dish := range q.p.Dishes {
		wish, _ := dish.Wish.Float64()
		// t ≤ x ÷ wish for a dish made
		q.row(sum{t: wish, fmt.Sprintf("x%d", d): -1, fmt.Sprintf("z%d", d): wish * most}, "<=", wish*most)
	}
	values := q.ask(sum{t: 1})
	var least *big.Rat
	for d, dish := range q.p.Dishes {
		if math.Round(values[fmt.Sprintf("z%d", d)]) == 0 {
			continue
		}
		ratio := new(big.Rat).Quo(ratInt(int(math.Round(values[fmt.Sprintf("x%d", d)]))), dish.Wish.Rat())
		if least == nil || ratio.Cmp(least) < 0 {
			least = ratio
		}
	}
	if least == nil {
		return new(big.Rat)
	}
	for d, dish := range q.p.Dishes {
		enough := float64(roundedUp(new(big.Rat).Mul(least, dish.Wish.Rat())))
		q.row(sum{fmt.Sprintf("x%d", d): 1, fmt.Sprintf("z%d", d): -enough}, ">=", 0)
	}
	return least
}

// ask has the outsider maximise a sum under what is written so far.
func (q *told) ask(goal sum) map[string]float64 {
	if q.late {
		return nil
	}
	file := filepath.Join(q.t.TempDir(), "p.lp")
	var b strings.Builder
	b.WriteString("Maximize\n goal:")
	for _, n := range q.names {
		fmt.Fprintf(&b, "\n %+g %s", goal[n], n)
	}
	b.WriteString("\nSubject To\n")
	for i, r := range q.rows {
		fmt.Fprintf(&b, " r%d: %s\n", i, r)
	}
	fmt.Fprintf(&b, "Bounds\n %s\nGeneral\n %s\nEnd\n", strings.Join(q.bounds, "\n "), strings.Join(q.whole, "\n "))
	require.NoError(q.t, os.WriteFile(file, []byte(b.String()), 0o600))
	values, feasible, late := q.by.solve(q, file)
	q.late = late
	require.True(q.t, feasible || late, "%s finds no plan at all", q.by.name)
	return values
}

// run starts the outsider's program, which has so many seconds of processor time
// and no more: other work on the machine, or a program that does not look at its
// own clock, makes no difference. It reports whether the time was not enough.
func (q *told) run(args ...string) (late bool) {
	limited := []string{"-c", `ulimit -t "$0" && exec "$@"`, strconv.Itoa(q.seconds), q.by.program}
	run := exec.Command("sh", append(limited, args...)...)
	out, err := run.CombinedOutput()
	q.took += run.ProcessState.UserTime() + run.ProcessState.SystemTime()
	if run.ProcessState.ExitCode() < 0 {
		return true // stopped by the limit's signal
	}
	require.NoError(q.t, err, "%s", out)
	return false
}

// solveByGLPK runs glpsol and reads its solution file: a line "s mip rows columns
// status objective", and "j number value" for each column.
func solveByGLPK(q *told, file string) (map[string]float64, bool, bool) {
	answer := file + ".sol"
	if q.run("--lp", file, "-w", answer) {
		return nil, false, true
	}
	data, err := os.ReadFile(answer)
	require.NoError(q.t, err)
	values, feasible, late := map[string]float64{}, true, false
	for line := range strings.Lines(string(data)) {
		f := strings.Fields(line)
		switch {
		case len(f) == 6 && f[0] == "s":
			late = f[4] == "f" || f[4] == "u"
			feasible = f[4] != "n"
		case len(f) == 3 && f[0] == "j":
			j, _ := strconv.Atoi(f[1])
			values[q.names[j-1]], _ = strconv.ParseFloat(f[2], 64)
		}
	}
	return values, feasible, late
}

// solveByCBC runs cbc and reads its solution file: how it ended, then a line
// "number name value cost" for each column that is not 0.
func solveByCBC(q *told, file string) (map[string]float64, bool, bool) {
	answer := file + ".sol"
	if q.run(file, "-ratio", "0", "-allow", "0", "-solve", "-solu", answer) {
		return nil, false, true
	}
	data, err := os.ReadFile(answer)
	require.NoError(q.t, err)
	head, rest, _ := strings.Cut(string(data), "\n")
	values := map[string]float64{}
	for line := range strings.Lines(rest) {
		if f := strings.Fields(strings.TrimPrefix(strings.TrimSpace(line), "**")); len(f) == 4 {
			values[f[1]], _ = strconv.ParseFloat(f[2], 64)
		}
	}
	return values, !strings.HasPrefix(head, "Infeasible") && !strings.HasPrefix(head, "Integer infeasible"), strings.HasPrefix(head, "Stopped")
}
