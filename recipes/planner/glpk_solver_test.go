package planner

import (
	"fmt"
	"math"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A glpk is the GNU Linear Programming Kit's stand-alone solver, asked level by
// level. The problem is written for it as it is told in words, with one flow for
// each lot and need, and shares nothing with the planner's own rows.
type glpk struct {
	t       testing.TB
	p       Problem
	allowed []bool
	names   []string
	index   map[string]int
	rows    []string
	bounds  []string
	whole   []string
	limit   int  // seconds a question
	late    bool // a question was not answered in time
}

// solveByGLPK takes a problem through all levels. It returns nil when no dish can
// be made.
func solveByGLPK(t testing.TB, p Problem) *answer {
	g := &glpk{t: t, p: p, limit: 60}
	a := g.answer()
	require.False(t, g.late, "glpsol took too long")
	return a
}

func (g *glpk) answer() *answer {
	p := g.p
	g.allowed = make([]bool, len(p.Dishes))
	some := false
	for d := range p.Dishes {
		g.reset()
		g.supply(func(o int) bool { return o == d })
		g.row("x%d >= %d", d, max(1, p.Dishes[d].Smallest))
		_, _, feasible := g.maximise(fmt.Sprintf("x%d", d))
		g.allowed[d] = feasible && (&bruteForce{p: p}).wanted(d)
		some = some || g.allowed[d]
	}
	if !some {
		return nil
	}
	g.reset()
	g.supply(func(d int) bool { return g.allowed[d] })
	g.people()
	return g.climb()
}

func (g *glpk) climb() *answer {
	a := &answer{}
	if g.p.Guests != nil {
		fed, _, _ := g.maximise(g.sum("y"))
		a.fed = int(math.Round(fed))
		g.row("%s >= %d", g.sum("y"), a.fed)
	}
	use := g.sum("u")
	grams, _, ok := g.maximise(use)
	require.True(g.t, ok || g.late)
	a.use, _ = new(big.Rat).SetString(fmt.Sprintf("%.6f", grams))
	if use != "0 x0" {
		g.row("%s >= %.9f", use, grams-1e-6*max(1, grams))
	}
	balance := math.Inf(1)
	for d, dish := range g.p.Dishes {
		if g.allowed[d] {
			wish, _ := dish.Wish.Rat().Float64()
			g.row("%g t - x%d <= 0", wish, d)
		}
	}
	t, x, _ := g.maximise("t")
	for d, dish := range g.p.Dishes {
		if g.allowed[d] {
			wish, _ := dish.Wish.Rat().Float64()
			balance = min(balance, math.Round(x[d])/wish)
		}
	}
	if !g.late {
		require.InDelta(g.t, t, balance, 1e-5)
	}
	a.balance, _ = new(big.Rat).SetString(fmt.Sprintf("%.6f", balance))
	g.row("t >= %.9f", balance-1e-7)
	sign := "+"
	if g.p.Guests != nil {
		sign = "-"
	}
	var all string
	for d := range g.p.Dishes {
		all += fmt.Sprintf(" %s x%d", sign, d)
	}
	portions, _, _ := g.maximise(all)
	a.portions = int(math.Abs(math.Round(portions)))
	g.row("%s >= %.0f", all, math.Round(portions))
	for d := range g.p.Dishes {
		n, _, _ := g.maximise(fmt.Sprintf("x%d", d))
		a.x = append(a.x, int(math.Round(n)))
		g.row("x%d = %d", d, a.x[d])
	}
	return a
}

func (g *glpk) reset() {
	g.names, g.rows, g.bounds, g.whole = nil, nil, nil, nil
	g.index = map[string]int{}
	for d := range g.p.Dishes {
		g.name("x%d", d)
		g.whole = append(g.whole, fmt.Sprintf("x%d", d))
	}
	g.name("t")
}

func (g *glpk) name(format string, args ...any) string {
	n := fmt.Sprintf(format, args...)
	if _, ok := g.index[n]; !ok {
		g.index[n] = len(g.names)
		g.names = append(g.names, n)
	}
	return n
}

func (g *glpk) row(format string, args ...any) {
	g.rows = append(g.rows, fmt.Sprintf(format, args...))
}

// sum adds up all unknowns whose name starts so.
func (g *glpk) sum(prefix string) string {
	var list []string
	for _, n := range g.names {
		if strings.HasPrefix(n, prefix) {
			list = append(list, n)
		}
	}
	if len(list) == 0 {
		return "0 x0"
	}
	return strings.Join(list, " + ")
}

// supply writes batches, flows and limits. The flows out of lots to be used
// today are named u…, the others f….
func (g *glpk) supply(with func(int) bool) {
	out := make([][]string, len(g.p.Lots))
	for d, dish := range g.p.Dishes {
		if !with(d) {
			g.bounds = append(g.bounds, fmt.Sprintf("x%d = 0", d))
			continue
		}
		made := g.name("z%d", d)
		g.whole = append(g.whole, made)
		g.bounds = append(g.bounds, made+" <= 1")
		g.row("x%d - %d %s >= 0", d, max(1, dish.Smallest), made)
		g.row("x%d - %d %s <= 0", d, dish.Largest, made)
		for k, n := range dish.Needs {
			per := n.PerPortion
			r := ""
			for l, lot := range g.p.Lots {
				if !takes(n, lot) {
					continue
				}
				kind := "f"
				if lot.First {
					kind = "u"
				}
				flow := g.name("%s%d_%d_%d", kind, l, d, k)
				out[l] = append(out[l], flow)
				r += fmt.Sprintf("+ %s %s ", per.Denom(), flow)
			}
			g.row("%s - %s x%d = 0", r, per.Num(), d)
		}
	}
	for l, lot := range g.p.Lots {
		if len(out[l]) > 0 {
			g.row("%s <= %s", strings.Join(out[l], " + "), lot.Supply)
		}
	}
	g.limits()
}

func (g *glpk) limits() {
	for _, l := range g.p.Limits {
		r := ""
		for d, dish := range g.p.Dishes {
			for _, o := range dish.Others {
				if o.Item == l.Item {
					f, _ := o.PerPortion.Float64()
					r += fmt.Sprintf("+ %.12g x%d ", f, d)
				}
			}
		}
		amount, _ := l.Amount.Float64()
		g.row("%s <= %.12g", r, amount)
	}
}

// people writes who eats what. y… counts helpings, b… says that a dish is cooked
// beyond its smallest batch.
func (g *glpk) people() {
	if g.p.Guests == nil {
		return
	}
	eaten := make([]string, len(g.p.Dishes))
	for i, guest := range g.p.Guests {
		taken := "0 x0"
		for d := range g.p.Dishes {
			if !g.allowed[d] || !guest.Suits[d] {
				continue
			}
			y := g.name("y%d_%d", i, d)
			g.whole = append(g.whole, y)
			g.bounds = append(g.bounds, fmt.Sprintf("%s <= %d", y, guest.Count))
			taken += " + " + y
			portion := 1.0
			if guest.Child {
				portion = 0.5
			}
			eaten[d] += fmt.Sprintf(" - %g %s", portion, y)
		}
		g.row("%s <= %d", taken, guest.Count*g.p.Sides)
	}
	for d, dish := range g.p.Dishes {
		if !g.allowed[d] {
			continue
		}
		g.row("x%d %s >= 0", d, eaten[d])
		beyond := g.name("b%d", d)
		g.whole = append(g.whole, beyond)
		g.bounds = append(g.bounds, beyond+" <= 1")
		smallest := max(1, dish.Smallest)
		g.row("x%d - %d %s <= %d", d, dish.Largest, beyond, smallest)
		// beyond: x - eaten <= 1/2, which is x <= ⌈eaten⌉ for halves
		g.row("x%d %s + %d %s <= %g", d, eaten[d], smallest, beyond, float64(smallest)+0.5)
	}
}

// maximise runs glpsol on what is written so far.
func (g *glpk) maximise(goal string) (best float64, x []float64, feasible bool) {
	dir := g.t.TempDir()
	file, answer := filepath.Join(dir, "p.lp"), filepath.Join(dir, "p.sol")
	var b strings.Builder
	fmt.Fprintf(&b, "Maximize\n goal: %s", goal)
	for _, i := range g.order(goal)[len(g.named(goal)):] {
		fmt.Fprintf(&b, "\n + 0 %s", g.names[i])
	}
	b.WriteString("\nSubject To\n")
	for i, r := range g.rows {
		fmt.Fprintf(&b, " r%d: %s\n", i, r)
	}
	fmt.Fprintf(&b, "Bounds\n %s\n t <= 1000000\nGeneral\n %s\nEnd\n", strings.Join(g.bounds, "\n "), strings.Join(g.whole, "\n "))
	require.NoError(g.t, os.WriteFile(file, []byte(b.String()), 0o600))
	out, err := exec.Command("glpsol", "--lp", file, "--tmlim", strconv.Itoa(g.limit), "-w", answer).CombinedOutput()
	require.NoError(g.t, err, "%s", out)
	data, err := os.ReadFile(answer)
	require.NoError(g.t, err, "%s", out)
	values := make([]float64, len(g.names))
	for line := range strings.Lines(string(data)) {
		f := strings.Fields(line)
		switch {
		case len(f) == 6 && f[0] == "s": // s mip rows columns status objective
			switch f[4] {
			case "o":
			case "f", "u":
				g.late = true
			default:
				return 0, make([]float64, len(g.p.Dishes)), false
			}
		case len(f) == 3 && f[0] == "j": // in the order in which they first appear
			j, _ := strconv.Atoi(f[1])
			values[g.order(goal)[j-1]], _ = strconv.ParseFloat(f[2], 64)
		}
	}
	return g.worth(goal, values), values[:len(g.p.Dishes)], true
}

// order is the order in which the unknowns appear in the file: those of the goal
// first.
func (g *glpk) order(goal string) []int {
	order := g.named(goal)
	for i := range g.names {
		if !slices.Contains(order, i) {
			order = append(order, i)
		}
	}
	return order
}

// named lists the unknowns of the goal.
func (g *glpk) named(goal string) []int {
	var list []int
	for word := range strings.FieldsSeq(goal) {
		if i, ok := g.index[word]; ok {
			list = append(list, i)
		}
	}
	return list
}

// worth is the goal's value, all of its coefficients being 1, 0 or -1.
func (g *glpk) worth(goal string, values []float64) float64 {
	sum, sign := 0.0, 1.0
	for word := range strings.FieldsSeq(goal) {
		switch i, ok := g.index[word]; {
		case ok:
			sum += sign * values[i]
			sign = 1
		case word == "-":
			sign = -1
		case word == "0":
			sign = 0
		}
	}
	return sum
}
