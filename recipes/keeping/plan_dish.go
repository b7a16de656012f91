package keeping

import (
	"slices"
	"time"
)

// planning is one dish of a plan. Its clocks come from Judge and DeadlineOf on
// the planned history; of the limits it takes no figure, only the words and the
// rules they rest on.
type planning struct {
	judging
	facts PlanFacts
	dish  PlanDish
	told  []told
}

func newPlanning(facts PlanFacts, dish PlanDish) (*planning, error) {
	p := &planning{facts: facts, dish: dish}
	p.Batch, p.limits = facts.cooked(dish), LimitsOf(facts.Authority)
	p.verdict.Authority = facts.Authority
	if err := p.takeFoods(facts.Authority); err != nil {
		return nil, err
	}
	return p, nil
}

// note goes through what is planned for the dish. A dish that is not cooked has
// nothing to tell; one that some at the table must not eat has the clocks of
// the others.
func (p *planning) note() error {
	if p.CookedAt.IsZero() {
		return nil
	}
	if p.wrongEater() {
		p.warning("not for the vulnerable at the table: "+uncapital(p.verdict.Reasons[0].Says), p.verdict.Reasons[0].Rules)
		p.facts.Vulnerable, p.dish.History.Vulnerable, p.Vulnerable = false, false, false
		p.verdict = Verdict{Authority: p.verdict.Authority}
	}
	if err := p.clockNotes(); err != nil {
		return err
	}
	for _, f := range p.foods {
		for _, w := range f.Warnings {
			p.warning(uncapital(w.Says), w.Rules)
		}
	}
	if p.Fridge.Known && p.Fridge.C > p.limits.Fridge.C {
		p.add(matter{kind: NoteWarning, fridge: p.Fridge, limit: p.limits.Fridge.C}, p.limits.Fridge.Rules)
	}
	return nil
}

func (p *planning) clockNotes() error {
	steps := []func() (bool, error){p.straightNote, p.leftOverNote}
	if !p.ChilledAt.IsZero() {
		steps = []func() (bool, error){p.coolingNote, p.dressingNote, p.tableNote, p.leftOverNote}
	}
	for _, step := range steps {
		if on, err := step(); !on || err != nil {
			return err
		}
	}
	return nil
}

// fresh is the history as it stands when it stops being hot, and that moment.
func (p *planning) fresh() (Batch, time.Time) {
	from := p.CookedAt
	if p.HotUntil.After(from) {
		from = p.HotUntil
	}
	b := p.AsOf(from)
	b.ChilledAt, b.Out = time.Time{}, nil
	b.Reheated, b.HeatedUp = 0, false
	return b, from
}

// deadline is DeadlineOf at the moment given, or at the last of the history
// where that is later.
func (p *planning) deadline(b Batch, at time.Time) (Deadline, error) {
	events := b.events()
	if last := events[len(events)-1]; last.After(at) {
		at = last
	}
	return DeadlineOf(b, p.facts.Authority, at)
}

// coolingNote is about the way to the fridge before the table.
func (p *planning) coolingNote() (on bool, err error) {
	b, from := p.fresh()
	d, err := p.deadline(b, from)
	by := d.Verdict.KeepBy
	if err != nil || by.IsZero() {
		return p.plainly(NoteCoolBy, d), err
	}
	m := matter{kind: NoteCoolBy, at: by, cooked: p.CookedAt}
	rules := [][]string{p.limits.Cooling.Rules, p.hotAirRules(p.Air)}
	inTime := func(takes time.Duration) bool { return takes > 0 && !from.Add(takes).After(by) }
	switch {
	case inTime(p.dish.Heaped):
		m.cools = inBowl
	case inTime(p.dish.Spread):
		m.cools, m.takes = onTray, p.dish.Heaped
		rules = append(rules, []string{"cool-spread-steamed", "cool-square-law"})
	case p.dish.Spread > 0:
		m.cools, m.takes = tooSlowly, p.dish.Spread
		rules = append(rules, []string{"cool-ice-bath"})
	}
	if p.ChilledAt.After(by) {
		m.late, m.danger = p.ChilledAt, true
	}
	p.add(m, rules...)
	return true, nil
}

func (p *planning) dressingNote() (on bool, err error) {
	if !p.dish.DressedAt.IsZero() {
		p.add(matter{kind: NoteDress, at: p.dish.DressedAt}, []string{"mix-oldest-ingredient", "mayo-no-shield"})
	}
	return true, nil
}

// tableNote is about a dish that comes to the table from the fridge.
func (p *planning) tableNote() (on bool, err error) {
	table := p.facts.TableFrom
	if table.IsZero() {
		return true, nil
	}
	b := p.facts.HistoryOf(p.dish)
	d, err := p.deadline(b, table)
	if err != nil || d.Verdict.Kind == Discard || d.Verdict.Kind == Unknown {
		return p.plainly(NoteTable, d), err
	}
	if d.Rule == "" {
		return true, nil // no moment ends it
	}
	air := b.Air
	if i := slices.IndexFunc(b.Out, Spell.open); b.Out[i].Air.Known {
		air = b.Out[i].Air
	}
	m := matter{kind: NoteTable, table: table, by: d.Verdict.KeepBy, air: p.airOf(air)}
	m.at, m.before = d.Clock()
	rules := [][]string{p.limits.Back.Rules, d.Rules, p.hotAirRules(air)}
	if lifeEnds := d.Rule == p.limits.Life.Rules[0]; lifeEnds {
		rules = [][]string{d.Rules, p.limits.Back.Rules, p.limits.Eat.Rules}
	}
	p.add(m, rules...)
	return true, nil
}

// straightNote is about a dish that goes from the heat to the table.
func (p *planning) straightNote() (on bool, err error) {
	b, from := p.fresh()
	d, err := p.deadline(b, from)
	if err != nil || d.Verdict.KeepBy.IsZero() {
		return p.plainly(NoteStraight, d), err
	}
	m := matter{kind: NoteStraight, cooked: p.CookedAt, at: d.Verdict.KeepBy, limit: p.limits.Hot.C, air: p.airOf(p.Air), none: p.facts.NoFridge}
	if eat, _ := d.Clock(); m.at.Before(eat) {
		m.by = eat
	}
	if !d.Holds(p.facts.TableFrom) {
		m.late, m.danger = p.facts.TableFrom, true
	}
	p.add(m, p.limits.Cooling.Rules, p.limits.StillOut.Rules, p.limits.Hot.Rules, p.hotAirRules(p.Air))
	return !m.danger && !p.facts.NoFridge, nil
}

// leftOverNote is about what is left over and goes back into the fridge at once.
func (p *planning) leftOverNote() (on bool, err error) {
	b, from := p.fresh()
	b.ChilledAt = from
	if b.HotAt.Known && b.HotUntil.IsZero() {
		b.HotUntil = from
	}
	if !p.ChilledAt.IsZero() {
		b = p.Batch
		b.Out = slices.DeleteFunc(slices.Clone(b.Out), Spell.open)
	}
	if b.HeatedUp {
		b.Reheated, b.HeatedUp = b.Reheated+1, false
	}
	d, err := p.deadline(b, p.facts.TableFrom)
	if err != nil || d.Rule == "" || d.Verdict.Kind == Discard || d.Verdict.Kind == Unknown {
		return false, err
	}
	m := matter{kind: NoteLeftOver}
	m.at, m.before = d.Clock()
	rules := [][]string{d.Rules}
	if p.reheats {
		m.heatTo = p.limits.ReheatWords
		rules = append(rules, p.limits.Reheatings.Rules, p.limits.Reheat.Rules)
	}
	p.add(m, rules...)
	return true, nil
}

// plainly tells a verdict in its own words where it is none that the plan's
// words are made for. After a discard there is no more to tell.
func (p *planning) plainly(kind NoteKind, d Deadline) (on bool) {
	v := d.Verdict
	m := matter{kind: kind, at: v.Until, cooked: p.CookedAt, head: v.Head, sentence: v.Sentence, danger: v.Kind == Discard || v.Kind == Unknown}
	if v.Kind == Discard {
		m.at, m.table = d.Until, p.facts.TableFrom
	}
	if len(v.Reasons) > 0 {
		p.add(m, v.Reasons[0].Rules)
	}
	return !m.danger
}

func (p *planning) hotAirRules(air Temperature) []string {
	if p.limits.HotAir.IsSet() && (!air.Known || p.weightIn(air) == 2) {
		return p.limits.HotAir.Rules
	}
	return nil
}

// airOf is what the air does to the time.
func (p *planning) airOf(air Temperature) airMatter {
	hot := p.limits.HotAir
	switch {
	case hot.IsSet() && p.weightIn(air) == 2:
		return airMatter{kind: hotAir, c: air.C}
	case hot.IsSet() && !air.Known:
		return airMatter{kind: unknownAir, c: hot.C}
	}
	return airMatter{}
}
