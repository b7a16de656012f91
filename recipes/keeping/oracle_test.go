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
	back, eat           int // minutes in all
	backUnder, eatUnder bool
	hotAir              bool
	life, vulnerable    int // hours
	thaw                int // hours; 0 = what was left
	reheats             int // 0 = no limit
}

var oracleTable = map[Authority]oracleLimits{
	Strictest:      {63, 5, 120, 120, true, false, true, 48, 24, 24, 1},
	UnitedKingdom:  {63, 8, 120, 240, false, false, false, 48, 48, 24, 1},
	UnitedStates:   {57, 5, 120, 120, false, false, true, 96, 96, 0, 0},
	AustraliaAndNZ: {60, 5, 120, 240, true, true, false, 96, 24, 0, 1},
}

// oracleFor adds what a food is stricter in.
func oracleFor(food string, a Authority) oracleLimits {
	l := oracleTable[a]
	switch food {
	case "baked-in-foil":
		l.eat, l.eatUnder, l.hot = 120, false, max(l.hot, 60)
	case "garlic-oil", "herb-butter":
		l.eat, l.eatUnder, l.fridge = 120, false, 4.4
		if l.vulnerable == l.life {
			l.vulnerable = 96
		}
		l.life = 96
	case "dressed-salad-raw-egg":
		l.life, l.vulnerable, l.fridge = 24, 24, min(l.fridge, 5)
		l.eat, l.eatUnder = 120, false
	case "cooked-rice":
		l.life, l.vulnerable = 24, 24
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
	if b.Vulnerable {
		life = l.vulnerable
	}
	switch {
	case b.Vulnerable && b.Food == "dressed-salad-raw-egg":
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
	if b.ChilledAt.IsZero() {
		used := coolWeight * (end - start)
		if past(used, l.eat, l.eatUnder && used > 120) || end > life*60 {
			return Discard
		}
		return FineNow
	}
	chilled := o.minutes(b.ChilledAt)
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
	total, dead, wasOut, powerCounted, failedBack := 0, 0, false, false, false
	if warmFridge {
		total = coolWeight * (chilled - start)
	}
	for m := min(chilled, 0) - 3000; m <= end; m++ {
		if o.powerOff(m) {
			dead++
		} else {
			dead = 0
		}
		weight := 0
		for _, s := range b.Out {
			if m >= o.minutes(s.From) && (s.To.IsZero() || m < o.minutes(s.To)) {
				weight = max(weight, o.airOf(s))
			}
		}
		if m >= chilled && dead > 240 {
			weight = max(weight, 1, o.air(b.Air))
			powerCounted = powerCounted || m < end
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
		return o.last(total, isOut || weight > 0, powerCounted, failedBack, frozen, thawed, life)
	}
	return Unknown
}

func (o oracle) last(total int, out, powerCounted, failedBack bool, frozen, thawed, life int) Kind {
	l, end := o.l, o.minutes(o.now)
	eat, under := l.eat, l.eatUnder
	if powerCounted {
		under = under && eat <= 120
		eat = 120
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
	reheats := !slices.Contains([]string{"dressed-salad", "dressed-salad-raw-egg", "garlic-oil", "herb-butter"}, o.b.Food)
	switch {
	case past(total, eat, under), failedBack, end > lifeEnd:
		return Discard
	case out, frozen >= 0 && thawed < 0:
		return FineNow
	case thawed >= 0, o.b.Vulnerable && reheats:
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
		for _, a := range append(Authorities(), Strictest) {
			v := judged(t, line, a)
			want := oracle{line.batch, oracleFor(line.batch.Food, a), line.now}.kind()
			require.Equal(t, want, v.Kind, "%s: %s\n%+v", a, v.Sentence, line)
			kinds[v.Kind]++
		}
	}
	for _, k := range []Kind{Discard, FineNow, ReheatFirst, EatBy} {
		require.Greater(t, kinds[k], lines/50, "%s is seldom reached", k)
	}
}
