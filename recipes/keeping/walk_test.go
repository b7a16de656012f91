package keeping_test

import (
	"encoding/csv"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trencher/recipes/keeping"
)

// A second route to the verdict. It is written from the rules as they stand in
// words (the clocks, the table of limits by authority and the order of decision,
// each beside it here; the limits by food in testdata/keeping/limits-by-food.csv)
// and walks a history minute by minute with counters. It knows the engine by its
// public types only.

// lawRow is a column of the table of limits, in minutes, hours and °C. Sources: the
// rules of the same ids in rules/*.yaml.
type lawRow struct {
	hot, fridge, weakFridge  float64
	still, back, eat         int // minutes: never chilled since hot; may go back; eaten until
	stillUnder, backUnder    bool
	eatUnder                 bool
	hotTwice, hotNoFour      bool // air above 32.2 °C: minutes twice; no four hours
	life, cold, weak, thawed int  // hours; thawed 0: what was left
	reheat                   int  // how often; 0: no figure
	stages                   bool // by probe: 21 °C in 2 h, 5 °C in 6 h
	refreeze                 bool
}

var law = map[keeping.Authority]lawRow{
	keeping.Strictest:      {hot: 63, fridge: 5, weakFridge: 5, still: 120, back: 120, backUnder: true, eat: 120, hotTwice: true, life: 48, cold: 48, weak: 24, thawed: 24, reheat: 1, stages: true},
	keeping.UnitedKingdom:  {hot: 63, fridge: 8, weakFridge: 5, still: 120, back: 120, eat: 240, hotTwice: true, hotNoFour: true, life: 48, cold: 48, weak: 48, thawed: 24, reheat: 1},
	keeping.UnitedStates:   {hot: 57, fridge: 5, weakFridge: 5, still: 120, back: 120, eat: 120, hotTwice: true, life: 96, cold: 96, weak: 96, stages: true, refreeze: true},
	keeping.AustraliaAndNZ: {hot: 60, fridge: 5, weakFridge: 5, still: 240, stillUnder: true, back: 120, backUnder: true, eat: 240, eatUnder: true, life: 96, cold: 48, weak: 24, thawed: 24, reheat: 1, stages: true},
}

// Minutes of the clocks for power.
const (
	fridgeOff, afresh, lookWithin = 240, 720, 60
	freezerFull, freezerHalf      = 48 * 60, 24 * 60
	coolMost                      = 120
)

// foodRow is a row of limits-by-food.csv.
type foodRow map[string]string

func readFoods(t *testing.T) map[string]foodRow {
	t.Helper()
	file, err := os.Open("../../testdata/keeping/limits-by-food.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	foods := map[string]foodRow{}
	for _, r := range rows[1:] {
		foods[r[0]] = foodRow{}
		for i, column := range rows[0] {
			foods[r[0]][column] = r[i]
		}
	}
	require.Len(t, foods, 30)
	return foods
}

// hours is a column's figure; 0 where it has none.
func (f foodRow) hours(column string) int {
	n, _ := strconv.Atoi(f[column])
	return n
}

// ownLife are the foods whose own life stands in the place of the authority's,
// longer or shorter.
func (f foodRow) ownLife() bool {
	return slices.Contains([]string{"pesto", "herb-oil", "garlic-oil", "herb-butter", "pickle", "ferment", "chutney-jam", "boiled-egg"}, f["kind"])
}

// lifeBy is the column of an authority, and for a vulnerable eater the shorter of
// that and of the life of those eaters; a figure of their own some foods have.
func (f foodRow) lifeBy(a keeping.Authority, weak bool) int {
	l := law[a]
	column := map[keeping.Authority]string{keeping.Strictest: "life_strictest_h", keeping.UnitedKingdom: "life_uk_h", keeping.UnitedStates: "life_us_h", keeping.AustraliaAndNZ: "life_au_nz_h"}[a]
	life := f.hours(column)
	switch {
	case life == 0 && f["kind"] == "raw-vegetables": // by themselves no clock runs; in a dish they are why it is not heated
		life = l.cold
		if weak {
			life = min(life, l.weak)
		}
	case life == 0:
		return 1 << 15 // no clock runs
	case !weak:
	case f.ownLife() || f["kind"] == "leaf-salad":
		life = min(life, f.hours("life_vulnerable_h"))
	default:
		life = min(life, l.weak)
	}
	return life
}

// walk is a history under judgement, in minutes since it was cooked.
type walk struct {
	t     *testing.T
	b     keeping.Batch
	a     keeping.Authority
	l     lawRow
	foods []foodRow
	now   int
	moved map[int]bool // minutes of cuts that a warm reading made time out
}

func (w *walk) at(t time.Time) int { return int(t.Sub(w.b.CookedAt) / time.Minute) }

// limits takes of every limit the strictest part's.
func (w *walk) limits(all map[string]foodRow) (life int) {
	life = 1 << 20
	for _, name := range append([]string{w.b.Food}, w.b.Also...) {
		if name == "dressed-salad-raw-egg" && w.b.Eggs == keeping.EggsPasteurised {
			name = "dressed-salad"
		}
		f := all[name]
		w.foods = append(w.foods, f)
		life = min(life, f.lifeBy(w.a, w.b.Vulnerable))
		out := f.hours("out_max_h")
		if w.b.Vulnerable && f["kind"] == "dressed-salad" {
			out = 2
		}
		if out > 0 {
			w.l.eatUnder = w.l.eatUnder && w.l.eat <= 60*out
			w.l.stillUnder = w.l.stillUnder && w.l.still <= 60*out
			w.l.eat, w.l.still, w.l.back = min(w.l.eat, 60*out), min(w.l.still, 60*out), min(w.l.back, 60*out)
		}
		if c, err := strconv.ParseFloat(f["fridge_max_c"], 64); err == nil {
			w.l.fridge = min(w.l.fridge, c)
		}
		if c, err := strconv.ParseFloat(f["hot_min_c"], 64); err == nil {
			w.l.hot = max(w.l.hot, c)
		}
	}
	if w.b.Vulnerable {
		w.l.fridge = min(w.l.fridge, w.l.weakFridge)
	}
	return life * 60
}

func past(used, limit int, under bool) bool { return used > limit || under && used == limit }

// weight is how often a minute in some air counts: twice above 32.2 °C, not at or
// below the fridge's limit.
func (w *walk) weight(air keeping.Temperature) int {
	switch {
	case air.Known && air.C > 32.2 && w.l.hotTwice:
		return 2
	case air.Known && air.C <= w.l.fridge:
		return 0
	}
	return 1
}

// weightOf is that of a spell: a thermometer first, then the packs.
func (w *walk) weightOf(s keeping.Spell) int {
	switch {
	case s.Air.Known:
		return w.weight(s.Air)
	case w.b.Box == keeping.PacksFrozen:
		return 0
	case w.b.Box == keeping.PacksMelted:
		return max(1, w.weight(w.b.Air))
	}
	return w.weight(w.b.Air)
}

func in(minute, from, to int, open bool) bool { return minute >= from && (open || minute < to) }

func (w *walk) off(minute int) bool {
	return slices.ContainsFunc(w.b.PowerOff, func(s keeping.Spell) bool {
		return in(minute, w.at(s.From), w.at(s.To), s.To.IsZero())
	})
}

// judge is the order of decision.
func (w *walk) judge(all map[string]foodRow) keeping.Kind {
	b := w.b
	if b.Tubers != "" || b.Bitter {
		return keeping.Discard
	}
	life := w.limits(all)
	for _, f := range w.foods {
		if f["kind"] == "home-canned" {
			return keeping.Unknown
		}
	}
	if b.Vulnerable && w.forbidden() || w.l.reheat > 0 && b.Reheated >= w.l.reheat {
		return keeping.Discard
	}
	start := 0
	if b.HotAt.Known && b.HotAt.C >= w.l.hot {
		start = w.at(b.HotUntil)
	}
	cooling := max(1, w.weight(b.Air))
	cold, inCold := w.firstCold()
	if !inCold {
		used := cooling * (w.now - start)
		if past(used, w.l.still, w.l.stillUnder) || w.now > life {
			return keeping.Discard
		}
		return keeping.FineNow
	}
	for w.off(cold) && cold < w.now {
		cold++
	}
	if w.off(cold) { // put into a fridge that is off still
		if past(cooling*(w.now-start), w.l.still, w.l.stillUnder) || w.now > life {
			return keeping.Discard
		}
		return keeping.FineNow
	}
	if cooling*(cold-start) > coolMost {
		return keeping.Discard
	}
	return w.afterwards(start, cold, cooling, life)
}

// forbidden tells that the kind is not for a vulnerable eater: raw egg unless of a
// scheme under the UK's rules, or pasteurised.
func (w *walk) forbidden() bool {
	return slices.ContainsFunc(w.foods, func(f foodRow) bool {
		if f["kind"] == "dressed-salad-raw-egg" {
			return !(w.a == keeping.UnitedKingdom && w.b.Eggs == keeping.EggsScheme && !w.b.LowImmunity)
		}
		return f["vulnerable"] == "not" || strings.HasPrefix(f["vulnerable"], "not (tahini)")
	})
}

func (w *walk) firstCold() (minute int, known bool) {
	switch {
	case !w.b.ChilledAt.IsZero():
		return w.at(w.b.ChilledAt), true
	case !w.b.FrozenAt.IsZero():
		return w.at(w.b.FrozenAt), true
	}
	return 0, false
}

// afterwards walks what follows once it was in the cold.
func (w *walk) afterwards(start, cold, cooling, life int) keeping.Kind {
	b := w.b
	frozen, thawed := -1, -1
	if !b.FrozenAt.IsZero() {
		frozen = w.at(b.FrozenAt)
	}
	if !b.ThawedAt.IsZero() {
		thawed = w.at(b.ThawedAt)
	}
	fridge := func(m int) bool {
		chilled := !b.ChilledAt.IsZero() && m >= w.at(b.ChilledAt) && (frozen < 0 || m < frozen)
		return chilled || thawed >= 0 && m >= thawed
	}
	freezer := func(m int) bool { return frozen >= 0 && m >= frozen && (thawed < 0 || m < thawed) }
	if frozen > life {
		return keeping.Discard
	}
	verdictOfCuts, held := w.fridgeCuts(fridge)
	if verdictOfCuts == keeping.Discard || w.probedTooWarm(start, cold, frozen) {
		return keeping.Discard
	}
	verdictOfFreezer, softened := w.freezerCuts(freezer)
	if verdictOfFreezer == keeping.Discard {
		return keeping.Discard
	}
	out, bad := w.out(start, cold, cooling, frozen, thawed, fridge)
	if bad {
		return keeping.Discard
	}
	melted := thawed
	if softened >= 0 && (melted < 0 || softened < melted) {
		melted = softened
	}
	end := life
	switch {
	case melted >= 0:
		end += melted - frozen
		if w.l.thawed > 0 {
			end = min(end, melted+60*w.l.thawed)
		}
	case frozen >= 0:
		end = 1 << 30
	}
	reheats := !slices.ContainsFunc(w.foods, func(f foodRow) bool { return f["reheats"] == "no" })
	switch {
	case w.now > end:
		return keeping.Discard
	case verdictOfFreezer == keeping.Unknown:
		return keeping.Unknown
	case out, frozen >= 0 && thawed < 0:
		return keeping.FineNow
	case reheats && (melted >= 0 || b.Vulnerable):
		return keeping.ReheatFirst
	}
	_ = held
	return keeping.EatBy
}

// out is the clock of all spells out: out tells that one is on now, bad that the
// food is over.
func (w *walk) out(start, cold, cooling, frozen, thawed int, fridge func(int) bool) (out, bad bool) {
	b := w.b
	warm := b.Fridge.Known && b.Fridge.C > w.l.fridge
	total, eat, under := 0, w.l.eat, w.l.eatUnder
	if cooling == 2 && w.l.hotNoFour && eat > 120 { // it has been in such air
		eat, under = 120, false
	}
	if warm && w.l.still < eat { // the UK's four hours are for what left the fridge cold
		eat, under = w.l.still, w.l.stillUnder
	}
	if len(w.moved) > 0 { // warm by a reading: over two hours it is thrown out
		under = w.l.backUnder && w.l.back <= eat || under && eat < w.l.back
		eat = min(eat, w.l.back)
	}
	if warm {
		// The chilling ends the cooling in a working fridge only: a warm one never did.
		total = cooling * (cold - start)
	}
	for m := cold; m <= w.now; m++ {
		weight := 0
		for _, s := range b.Out {
			from, to := w.at(s.From), w.at(s.To)
			if in(m, from, to, s.To.IsZero()) && (m < w.now || s.To.IsZero()) {
				weight = max(weight, w.weightOf(s))
			}
			if s.To.IsZero() || to > from {
				if w.weightOf(s) == 2 && w.l.hotNoFour && eat > 120 {
					eat, under = 120, false
				}
			}
		}
		out = weight > 0
		if warm && fridge(m) && m >= cold {
			weight, out = max(weight, 1), true
		}
		if w.moved[m] {
			weight, out = max(weight, 1, w.weight(b.Air)), true
		}
		if past(total, eat, under) {
			return out, true
		}
		if w.backAt(m, frozen, warm) && past(total, w.l.back, w.l.backUnder) {
			return out, true
		}
		if m < w.now {
			total += weight
		}
	}
	return out, false
}

// backAt tells that the food goes back into the cold at a minute: a spell ends
// there, a cut that was time out, or it leaves a fridge that is too warm for the
// freezer.
func (w *walk) backAt(m, frozen int, warm bool) bool {
	stayed := !w.b.ChilledAt.IsZero() && w.at(w.b.ChilledAt) < frozen // from the tray, or at once from it, it was in no fridge
	if w.moved[m-1] && !w.moved[m] || warm && m == frozen && stayed {
		return true
	}
	return slices.ContainsFunc(w.b.Out, func(s keeping.Spell) bool {
		return !s.To.IsZero() && m == w.at(s.To) && w.at(s.To) > w.at(s.From) && w.weightOf(s) > 0
	})
}

// stricterByChoice tells that a history has something in it of which the engine is
// stricter than the words, by a choice of its own: a cut that was on while the food
// cooled or was out, which it counts in full, so that no time out ever does a batch
// good.
func stricterByChoice(b keeping.Batch) bool {
	for _, cut := range b.PowerOff {
		ends := func(t time.Time) bool { return cut.To.IsZero() || cut.To.After(t) }
		cold := b.ChilledAt
		if cold.IsZero() {
			cold = b.FrozenAt
		}
		if !cut.From.After(cold) && ends(b.CookedAt) {
			return true
		}
		for _, s := range b.Out {
			if ends(s.From) && (s.To.IsZero() || cut.From.Before(s.To)) {
				return true
			}
		}
	}
	return false
}

// rank orders verdicts by what they allow, the least first.
func rank(k keeping.Kind) int {
	return slices.Index([]keeping.Kind{keeping.Discard, keeping.Unknown, keeping.FineNow, keeping.ReheatFirst, keeping.EatBy}, k)
}

func TestVerdictAgreesWithTheMinuteByMinuteWalk(t *testing.T) {
	foods := readFoods(t)
	kinds, stricter, lines := map[keeping.Kind]int{}, 0, walked()
	r := rand.New(rand.NewPCG(12, 6))
	for range lines {
		batch, now := randomHistory(r)
		if batch.Check(now) != nil || batch.HotAt.Known && batch.HotUntil.IsZero() || slices.Contains([]string{"pickle", "ferment", "chutney-jam", "raw-vegetables"}, batch.Food) {
			continue
		}
		for a := range law {
			v, err := keeping.Judge(batch, a, now)
			require.NoError(t, err)
			w := walk{t: t, b: batch, a: a, l: law[a], moved: map[int]bool{}}
			w.now = w.at(now)
			want := w.judge(foods)
			require.LessOrEqual(t, rank(v.Kind), rank(want), "%s is milder than the walk's %s: %s %s\n%+v\nnow %s", v.Kind, want, a, v.Sentence, batch, now)
			if v.Kind != want {
				require.True(t, stricterByChoice(batch), "%s, not the walk's %s: %s %s\n%+v\nnow %s", v.Kind, want, a, v.Sentence, batch, now)
				stricter++
			}
			kinds[v.Kind]++
		}
	}
	for _, k := range []keeping.Kind{keeping.Discard, keeping.FineNow, keeping.ReheatFirst, keeping.EatBy} {
		require.Greater(t, kinds[k], lines/50, "%s is seldom reached", k)
	}
	require.Less(t, stricter, lines*4/20, "stricter by choice")
	t.Logf("%d lines by 4 authorities, %d stricter by choice: %v", lines, stricter, kinds)
}
