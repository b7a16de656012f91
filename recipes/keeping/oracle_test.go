package keeping

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A second route to the verdict: the limits written out by hand from the
// published figures, and a history walked minute by minute with counters. It
// shares no code with the engine but the types.

type oracleLimits struct {
	hot, fridge         float64
	back, eat, still    int // minutes in all; still: never chilled since hot
	backUnder, eatUnder bool
	hotAir              bool
	hotEat              int // minutes, once some air was very hot; 0 = no change
	life, cold, weak    int // hours; cold: eaten cold; weak: vulnerable eaters
	weakFridge          float64
	thaw                int // hours; 0 = what was left
	reheats             int // 0 = no limit
}

var oracleTable = map[Authority]oracleLimits{
	Strictest:      {hot: 63, fridge: 5, back: 120, eat: 120, still: 120, backUnder: true, hotAir: true, life: 48, cold: 48, weak: 24, weakFridge: 5, thaw: 24, reheats: 1},
	UnitedKingdom:  {hot: 63, fridge: 8, back: 120, eat: 240, still: 120, hotAir: true, hotEat: 120, life: 48, cold: 48, weak: 48, weakFridge: 5, thaw: 24, reheats: 1},
	UnitedStates:   {hot: 57, fridge: 5, back: 120, eat: 120, still: 120, hotAir: true, life: 96, cold: 96, weak: 96, weakFridge: 5},
	AustraliaAndNZ: {hot: 60, fridge: 5, back: 120, eat: 240, still: 240, backUnder: true, eatUnder: true, life: 96, cold: 48, weak: 24, weakFridge: 5, thaw: 24, reheats: 1},
}

// oracleKind is what a food is stricter in, written out from the table of foods.
type oracleKind struct {
	own        int // hours, in place of the authority's where instead
	instead    bool
	weak       int
	out        bool // two hours, no four
	fridge     float64
	cold, heat bool
	never      bool // not for vulnerable eaters
}

var oracleKinds = map[string]oracleKind{
	"boiled-potatoes": {heat: true}, "mash": {heat: true}, "cooked-vegetables": {heat: true}, "baked-in-foil": {heat: true, out: true},
	"dressed-salad": {cold: true}, "dressed-salad-raw-egg": {own: 24, out: true, fridge: 5, cold: true, never: true},
	"cooked-rice": {own: 24, out: true, heat: true}, "garlic-oil": {own: 96, instead: true, weak: 24, out: true, fridge: 4.4, cold: true},
	"herb-butter": {own: 96, instead: true, weak: 24, out: true, fridge: 4.4, cold: true}, "anything-else": {own: 24, out: true, fridge: 5, heat: true, never: true},
	"leaf-salad": {weak: 24, out: true, fridge: 5, cold: true}, "sprouts": {own: 48, out: true, fridge: 5, heat: true},
	"pesto": {own: 72, instead: true, weak: 24, out: true, fridge: 4.4, cold: true}, "herb-oil": {own: 72, instead: true, weak: 24, out: true, fridge: 4.4, cold: true},
	"bound-salad": {cold: true}, "pasta-salad": {cold: true, heat: true}, "coleslaw": {cold: true, out: true, fridge: 5},
	"hummus": {cold: true, out: true, fridge: 5, never: true}, "boiled-egg": {own: 48, instead: true, weak: 24, cold: true},
	"egg-dish": {heat: true}, "gratin": {heat: true}, "cooked-beans": {heat: true}, "soup": {heat: true}, "stew": {heat: true}, "meat-or-fish-dish": {heat: true},
}

// oracleFor adds what a food and its eater are stricter in.
func oracleFor(food string, vulnerable bool, a Authority) oracleLimits {
	l, k := oracleTable[a], oracleKinds[food]
	if k.cold {
		l.life = l.cold
	}
	if food == "leaf-salad" && a == Strictest {
		k.own = 24
	}
	if food == "leaf-salad" && a != Strictest {
		k.own = 48
	}
	if food == "boiled-egg" && a == UnitedStates {
		k.own = 168
	}
	switch {
	case k.instead:
		l.life, l.weak = k.own, k.own
	case k.own > 0:
		l.life, l.weak = min(l.life, k.own), min(l.weak, k.own)
	}
	if k.weak > 0 {
		l.weak = min(l.weak, k.weak)
	}
	if vulnerable {
		l.life, l.fridge = min(l.life, l.weak), min(l.fridge, l.weakFridge)
		k.out = k.out || food == "dressed-salad"
	}
	if food == "baked-in-foil" {
		l.hot = max(l.hot, 60)
	}
	if k.out {
		l.eatUnder = l.eatUnder && l.eat <= 120
		l.eat, l.still = 120, 120
	}
	if k.fridge > 0 {
		l.fridge = min(l.fridge, k.fridge)
	}
	return l
}

type oracle struct {
	b   Batch
	l   oracleLimits
	now time.Time
}

func (o oracle) minutes(t time.Time) int { return int(t.Sub(o.b.CookedAt) / time.Minute) }

func past(used, limit int, under bool) bool { return used > limit || under && used == limit }

// air is the weight of a minute in air: twice when hot, none when as cold as
// the fridge.
func (o oracle) air(t Temperature) int {
	switch {
	case t.Known && t.C > 32.2 && o.l.hotAir:
		return 2
	case t.Known && t.C <= o.l.fridge:
		return 0
	}
	return 1
}

func (o oracle) airOf(s Spell) int {
	if s.Air.Known {
		return o.air(s.Air)
	}
	return o.air(o.b.Air)
}

func (o oracle) powerOff(minute int) bool {
	return slices.ContainsFunc(o.b.PowerOff, func(s Spell) bool {
		return minute >= o.minutes(s.From) && minute < o.minutes(s.To)
	})
}

func (o oracle) kind() Kind {
	b, l := o.b, o.l
	life := l.life
	switch {
	case b.Vulnerable && oracleKinds[b.Food].never:
		return Discard
	case l.reheats > 0 && b.Reheated >= l.reheats:
		return Discard
	}
	start := 0
	if b.HotAt.Known && b.HotAt.C >= l.hot {
		start = o.minutes(b.HotUntil)
	}
	coolWeight := max(1, o.air(b.Air))
	end := o.minutes(o.now)
	if b.ChilledAt.IsZero() && b.FrozenAt.IsZero() {
		used := coolWeight * (end - start)
		if past(used, l.still, l.eatUnder && l.still > 120) || end > life*60 {
			return Discard
		}
		return FineNow
	}
	chilled := o.minutes(b.FrozenAt)
	if !b.ChilledAt.IsZero() {
		chilled = o.minutes(b.ChilledAt)
	}
	for o.powerOff(chilled) {
		chilled++
	}
	if coolWeight*(chilled-start) > 120 {
		return Discard
	}
	return o.cold(start, chilled, coolWeight, life)
}

// cold walks the batch's life in the fridge minute by minute.
func (o oracle) cold(start, chilled, coolWeight, life int) Kind {
	b, l := o.b, o.l
	warmFridge := b.Fridge.Known && b.Fridge.C > l.fridge
	frozen, thawed := -1, -1
	if !b.FrozenAt.IsZero() {
		frozen = o.minutes(b.FrozenAt)
		if frozen > life*60 {
			return Discard
		}
	}
	if !b.ThawedAt.IsZero() {
		thawed = o.minutes(b.ThawedAt)
	}
	end := o.minutes(o.now)
	total, dead, power, wasOut, failedBack, hot := 0, 0, 0, false, false, false
	if warmFridge {
		// The warm fridge never ended the cooling: its time is time out, in the
		// air it cooled in.
		total, hot = coolWeight*(chilled-start), o.air(b.Air) == 2
	}
	for m := min(chilled, 0) - 3000; m <= end; m++ {
		inFridge := m >= min(start, chilled) && m < end && (frozen < 0 || m < frozen || thawed >= 0 && m >= thawed)
		switch {
		case o.powerOff(m) && inFridge:
			dead, power = dead+1, 0
		case !o.powerOff(m):
			power++
		}
		if power >= 720 {
			dead = 0
		}
		if dead > 240 {
			return Discard
		}
		weight := 0
		for _, s := range b.Out {
			if m >= o.minutes(s.From) && (s.To.IsZero() || m < o.minutes(s.To)) {
				weight = max(weight, o.airOf(s))
			}
			if s.From.Before(o.now) || s.To.IsZero() {
				hot = hot || o.airOf(s) == 2 && (s.To.IsZero() || s.To.After(s.From))
			}
		}
		isOut := weight > 0
		backNow := m == frozen && frozen >= 0 && warmFridge
		for _, s := range b.Out {
			backNow = backNow || !s.To.IsZero() && m == o.minutes(s.To) && o.airOf(s) > 0 && s.To.After(s.From)
		}
		if (backNow || wasOut && !isOut) && past(total, l.back, l.backUnder) {
			failedBack = true
		}
		wasOut = isOut
		if m < chilled && warmFridge {
			weight = 0 // counted with the cooling already
		}
		if m >= chilled && warmFridge && (frozen < 0 || m < frozen || thawed >= 0 && m >= thawed) {
			weight = max(weight, 1)
		}
		if m < end {
			total += weight
			continue
		}
		return o.last(total, isOut || weight > 0, hot, failedBack, frozen, thawed, life)
	}
	return Unknown
}

func (o oracle) last(total int, out, hot, failedBack bool, frozen, thawed, life int) Kind {
	l, end := o.l, o.minutes(o.now)
	eat, under := l.eat, l.eatUnder
	if hot && l.hotEat > 0 {
		eat = min(eat, l.hotEat)
	}
	lifeEnd := life * 60
	switch {
	case thawed >= 0:
		lifeEnd += thawed - frozen
		if l.thaw > 0 {
			lifeEnd = min(lifeEnd, thawed+l.thaw*60)
		}
	case frozen >= 0:
		lifeEnd = 1 << 30
	}
	reheats := oracleKinds[o.b.Food].heat
	switch {
	case past(total, eat, under), failedBack, end > lifeEnd:
		return Discard
	case out, frozen >= 0 && thawed < 0:
		return FineNow
	case reheats && (thawed >= 0 || o.b.Vulnerable):
		return ReheatFirst
	}
	return EatBy
}

func TestVerdictAgreesWithTheMinuteByMinuteWalk(t *testing.T) {
	kinds := map[Kind]int{}
	lines := timelines() / 4
	r := rand.New(rand.NewPCG(12, 6))
	for range lines {
		line := randomTimeline(r)
		if line.batch.Check(line.now) != nil {
			continue
		}
		if _, clocked := oracleKinds[line.batch.Food]; !clocked {
			continue
		}
		for _, a := range append(Authorities(), Strictest) {
			v := judged(t, line, a)
			want := oracle{line.batch, oracleFor(line.batch.Food, line.batch.Vulnerable, a), line.now}.kind()
			require.Equal(t, want, v.Kind, "%s: %s\n%+v", a, v.Sentence, line.batch)
			kinds[v.Kind]++
		}
	}
	for _, k := range []Kind{Discard, FineNow, ReheatFirst, EatBy} {
		require.Greater(t, kinds[k], lines/50, "%s is seldom reached", k)
	}
}
