package keeping

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A plan for a table at 18:30: a salad cooked at 15:40 and a hot dish cooked
// at 18:15.
func planFacts(t *testing.T) PlanFacts {
	at := func(clock string) time.Time { return clockOf(t, "2031-07-12T"+clock) }
	return PlanFacts{
		TableFrom: at("18:30"), Air: Celsius(24), Fridge: Celsius(4),
		Dishes: []PlanDish{
			{Name: "Salad", History: Batch{Food: "dressed-salad", CookedAt: at("15:40"), ChilledAt: at("16:45")}, DressedAt: at("16:40"), Heaped: 5 * time.Hour, Spread: 62 * time.Minute},
			{Name: "Crushed", History: Batch{Food: "boiled-potatoes", CookedAt: at("18:15")}},
		},
	}
}

func says(notes []Note) []string {
	var all []string
	for _, n := range notes {
		text := n.Says
		if len(n.Dishes) > 0 {
			text = strings.Join(n.Dishes, ", ") + ": " + text
		}
		all = append(all, text)
	}
	return all
}

func TestPlanNotesTellClockTimes(t *testing.T) {
	notes, err := PlanNotes(planFacts(t))
	require.NoError(t, err)
	assert.Equal(t, []string{
		"Salad: cooked at 15:40, in the fridge by 17:40. Spread it one layer deep on a tray; heaped in a bowl it would take 5 h.",
		"Salad: dress it cold, at 16:40, and back into the fridge until serving.",
		"Salad: on the table from 18:30; eaten or back in the fridge before 20:30, else thrown out.",
		"Salad: what is left and went back in time is eaten by Mon 15:40.",
		"Salad: the dressing buys no time out of the fridge.",
		"Crushed: cooked at 18:15; eaten or in the fridge by 20:15, unless it is kept at 63 °C or hotter.",
		"Crushed: what is left and went back in time is eaten by Mon 18:15, heated up once, to 75 °C in the middle, steaming all through.",
	}, says(notes))
	assert.Equal(t, "uk-cool-home-2h", notes[0].Rule)
	assert.Equal(t, clockOf(t, "2031-07-12T17:40"), notes[0].At)
}

func TestPlanNotesByCircumstance(t *testing.T) {
	cases := []struct {
		name   string
		change func(f *PlanFacts)
		want   string
		rule   string
	}{
		{"air above 32.2 °C halves the time on the table", func(f *PlanFacts) {
			f.Air, f.Dishes[0].DressedAt = Celsius(34), time.Time{}
			f.Dishes[0].History.ChilledAt = f.Dishes[0].History.CookedAt.Add(50 * time.Minute)
		},
			"Salad: on the table from 18:30; eaten or back in the fridge before 19:30 (half the time, in air of 34 °C), else thrown out.", "uk-picnic-2h"},
		{"and the time to the fridge", func(f *PlanFacts) {
			f.Air, f.Dishes[0].History.ChilledAt = Celsius(34), f.Dishes[0].History.CookedAt.Add(50*time.Minute)
		},
			"Salad: cooked at 15:40, in the fridge by 16:40. Even spread out it takes 1 h 2 min; cut it smaller, or stand the tray in cold water.", "uk-cool-home-2h"},
		{"air that is not known is told", func(f *PlanFacts) { f.Air = Temperature{} },
			"Crushed: cooked at 18:15; eaten or in the fridge by 20:15 (half that time in air above 32.2 °C), unless it is kept at 63 °C or hotter.", "uk-cool-home-2h"},
		{"the UK lets it stand longer", func(f *PlanFacts) { f.Authority = UnitedKingdom },
			"Salad: on the table from 18:30; back in the fridge before 20:30, or eaten by 22:30 and then thrown out.", "uk-picnic-2h"},
		{"and says that it is narrowed to the UK", func(f *PlanFacts) { f.Authority = UnitedKingdom },
			"Narrowed to the rules of the UK; the strictest of all allow less.", "uk-party-4h"},
		{"a bowl that cools in time", func(f *PlanFacts) { f.Dishes[0].Heaped = 100 * time.Minute },
			"Salad: cooked at 15:40, in the fridge by 17:40. In its bowl it cools in time.", "uk-cool-home-2h"},
		{"no estimate of the cooling", func(f *PlanFacts) { f.Dishes[0].Heaped, f.Dishes[0].Spread = 0, 0 },
			"Salad: cooked at 15:40, in the fridge by 17:40.", "uk-cool-home-2h"},
		{"a plan that chills too late", func(f *PlanFacts) {
			f.Dishes[0].History.ChilledAt = f.Dishes[0].History.CookedAt.Add(150 * time.Minute)
		},
			"Salad: cooked at 15:40, in the fridge by 17:40. Spread it one layer deep on a tray; heaped in a bowl it would take 5 h. The plan has it there at 18:10 only, too late to keep.", "uk-cool-home-2h"},
		{"a vulnerable eater", func(f *PlanFacts) { f.Vulnerable = true },
			"Salad: what is left and went back in time is eaten by Sun 15:40.", "au-vulnerable-24h"},
		{"raw egg and a vulnerable eater", func(f *PlanFacts) { f.Vulnerable, f.Dishes[0].History.Food = true, "dressed-salad-raw-egg" },
			"Salad: not for the vulnerable at the table: it has salad with raw egg, which is not for this eater; the others at the table may have it within its times.", "raw-egg-24h"},
		{"a warm fridge", func(f *PlanFacts) { f.Fridge = Celsius(7) },
			"Salad, Crushed: the fridge at 7 °C is too warm to keep it in; 5 °C at most.", "us-chill-5c"},
		{"foil", func(f *PlanFacts) { f.Authority, f.Dishes[1].History.Food = UnitedKingdom, "baked-in-foil" },
			"Crushed: cooked at 18:15; eaten or in the fridge by 20:15, unless it is kept at 63 °C or hotter.", "uk-cool-home-2h"},
		{"a cold dish that goes straight to the table", func(f *PlanFacts) { f.Dishes[0].History.ChilledAt = time.Time{} },
			"Salad: cooked at 15:40; eaten or in the fridge by 17:40, unless it is kept at 63 °C or hotter. The plan has it on the table at 18:30 only, too late to eat.", "uk-cool-home-2h"},
		{"chilled too late it is not for the table", func(f *PlanFacts) {
			f.Dishes[0].History.ChilledAt = f.Dishes[0].History.CookedAt.Add(150 * time.Minute)
		},
			"Salad: not for the table at 18:30: its time ran out at 17:40. It took 2 h 30 min to get into the fridge; 2 h is the most.", "uk-cool-home-2h"},
		{"out since it was dressed", func(f *PlanFacts) { f.Dishes[0].DressedAt = f.Dishes[0].History.CookedAt.Add(2 * time.Hour) },
			"Salad: on the table from 18:30; eaten or back in the fridge before 19:40, else thrown out.", "uk-picnic-2h"},
		{"Australia wants it eaten before its four hours", func(f *PlanFacts) { f.Authority = AustraliaAndNZ },
			"Salad: on the table from 18:30; back in the fridge before 20:30, or eaten before 22:30 and then thrown out.", "au-2h4h"},
		{"the UK too gives two hours to what is warm from the stove", func(f *PlanFacts) { f.Authority = UnitedKingdom },
			"Crushed: cooked at 18:15; eaten or in the fridge by 20:15, unless it is kept at 63 °C or hotter.", "uk-cool-home-2h"},
		{"the table at the end of its life", func(f *PlanFacts) {
			f.Dishes[0].DressedAt = time.Time{}
			f.Dishes[0].History.CookedAt = f.TableFrom.Add(-47 * time.Hour)
			f.Dishes[0].History.ChilledAt = f.TableFrom.Add(-46 * time.Hour)
		},
			"Salad: on the table from 18:30; eaten or back in the fridge before 19:30, else thrown out.", "uk-leftovers-48h"},
		{"heated up once already it does not go back", func(f *PlanFacts) {
			f.Dishes[0].History.Food, f.Dishes[0].History.HeatedUp = "mash", true
		},
			"Salad: on the table from 18:30; eaten by 20:30, and then thrown out.", "uk-picnic-2h"},
		{"kept hot to the table", func(f *PlanFacts) { f.Dishes[1].History.HotAt = Celsius(70) },
			"Crushed: cooked at 18:15; fine while it stays at 63 °C or hotter; eat it by Mon 18:15 at the latest. Once it falls below 63 °C it has 2 h to be in the fridge.", "uk-hot-63"},
		{"kept hot for a while", func(f *PlanFacts) {
			f.Dishes[1].History.HotAt, f.Dishes[1].History.HotUntil = Celsius(70), f.Dishes[1].History.CookedAt.Add(10*time.Minute)
		},
			"Crushed: cooked at 18:15; eaten or in the fridge by 20:25, unless it is kept at 63 °C or hotter.", "uk-cool-home-2h"},
		{"nobody knows how hot it was kept", func(f *PlanFacts) {
			f.Dishes[1].History.HotUntil = f.Dishes[1].History.CookedAt.Add(10 * time.Minute)
		},
			"Crushed: cannot say without knowing how hot it was kept (hot_at). Find it out and ask again; if you cannot, throw it out, for smell and looks do not tell.", "no-sniff-test"},
		{"green tubers", func(f *PlanFacts) { f.Dishes[1].History.Tubers = TubersGreen },
			"Crushed: throw it out. Green, shrivelled or strongly sprouted potatoes hold a poison that cooking does not take away.", "green-bitter-discard"},
		{"spread out it cools in time, heaped nobody knows", func(f *PlanFacts) { f.Dishes[0].Heaped = 0 },
			"Salad: cooked at 15:40, in the fridge by 17:40. Spread it one layer deep on a tray.", "uk-cool-home-2h"},
		{"a warm fridge counts from the stove", func(f *PlanFacts) {
			f.Fridge, f.Dishes[0].History.CookedAt = Celsius(7), f.TableFrom.Add(-110*time.Minute)
		},
			"Salad: on the table from 18:30; eaten or back in the fridge before 18:40, else thrown out.", "uk-picnic-2h"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			facts := planFacts(t)
			c.change(&facts)
			notes, err := PlanNotes(facts)
			require.NoError(t, err)
			i := slices.Index(says(notes), c.want)
			require.GreaterOrEqual(t, i, 0, "%q", says(notes))
			assert.Equal(t, c.rule, notes[i].Rule)
		})
	}
	_, err := PlanNotes(PlanFacts{Dishes: []PlanDish{{Name: "Pizza", History: Batch{Food: "pizza"}}}})
	require.ErrorContains(t, err, "Pizza")
	_, err = PlanNotes(PlanFacts{Authority: "eu"})
	require.ErrorContains(t, err, "authority")
	facts := planFacts(t)
	facts.Dishes[0].History.Air = Celsius(90)
	_, err = PlanNotes(facts)
	require.ErrorContains(t, err, `Salad: air "90 °C"`)
}

// What a plan promises holds when the batch is judged as it went: at every
// clock time of a note it is fine, a minute later it is not; and a plan that
// brings a dish to the table too late says so.
func TestPlanNotesAgreeWithTheVerdict(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 12))
	seen := map[string]int{}
	for range volume(1_500, 3_000, 3_000) {
		facts := randomPlan(r)
		dish := facts.Dishes[0]
		if food, err := LookupBatchFood(dish.History.Food); err != nil || food.timing != timed || food.refer != "" {
			continue // nothing of a plan's own, and from the fridge on
		}
		notes, err := PlanNotes(facts)
		require.NoError(t, err)
		served := facts.HistoryOf(dish)
		at, err := DeadlineOf(served, facts.Authority, facts.TableFrom)
		require.NoError(t, err)
		danger := slices.ContainsFunc(notes, func(n Note) bool { return n.Danger })
		require.Equal(t, !at.Holds(facts.TableFrom), danger, "%+v\n%q", facts, says(notes))
		for _, n := range notes {
			b := dish.History
			b.Air, b.Fridge = facts.Air, facts.Fridge
			switch {
			case n.Danger:
				seen["danger"]++
				continue
			case n.Kind == NoteTable:
				b = served
			case n.Kind == NoteStraight || n.Kind == NoteCoolBy:
				b.ChilledAt = n.At.Add(time.Minute)
				v, err := Judge(dropped(b, n.At), facts.Authority, n.At)
				require.NoError(t, err)
				require.NotEqual(t, Discard, v.Kind)
			case n.Kind == NoteLeftOver:
				if b.ChilledAt.IsZero() {
					b.ChilledAt = b.CookedAt
				}
			default:
				continue
			}
			seen[string(n.Kind)]++
			for past, want := range map[time.Duration]bool{-time.Minute: false, time.Minute: true} {
				if events := b.events(); n.At.Add(past).Before(events[len(events)-1]) {
					continue
				}
				v, err := Judge(b, facts.Authority, n.At.Add(past))
				require.NoError(t, err)
				require.Equal(t, want, v.Kind == Discard, "%s %s: %s\n%+v", n.Kind, n.Says, v.Sentence, b)
			}
		}
	}
	for _, kind := range []NoteKind{NoteTable, NoteStraight, NoteCoolBy, NoteLeftOver, "danger"} {
		require.Greater(t, seen[string(kind)], 200, kind)
	}
}

// dropped is the batch put into the fridge at a moment.
func dropped(b Batch, at time.Time) Batch {
	b.ChilledAt = at
	return b
}

// randomPlan is a plan of one dish round about the limits.
func randomPlan(r *rand.Rand) PlanFacts {
	b := Batch{Food: pick(r, BatchFoods()...), CookedAt: dawn}
	table := dawn.Add(pick(r, hours(r), hours(r)+3*time.Hour, hours(r)+46*time.Hour))
	var dressed time.Time
	if chilled := dawn.Add(hours(r)); r.IntN(3) > 0 && chilled.Before(table) {
		b.ChilledAt = chilled
		if r.IntN(2) == 0 {
			dressed = table.Add(-hours(r))
		}
	}
	return PlanFacts{
		Dishes:    []PlanDish{{Name: "Dish", History: b, DressedAt: dressed}},
		TableFrom: table, Fridge: Celsius(4), Air: pick(r, Temperature{}, Celsius(20), Celsius(34)),
		Authority: pick(r, append(Authorities(), Strictest)...),
	}
}

// A dish from the fridge is out of it from when it is dressed cold, else from
// the serving time; the clock on the table counts from then.
func TestPlannedHistory(t *testing.T) {
	at := func(clock string) time.Time { return clockOf(t, "2031-07-12T"+clock) }
	cases := []struct {
		name   string
		change func(f *PlanFacts)
		out    []Spell
		eaten  string
	}{
		{"dressed before the fridge", func(*PlanFacts) {}, []Spell{{From: at("18:30"), Air: Celsius(24)}}, "20:30"},
		{"not dressed", func(f *PlanFacts) { f.Dishes[0].DressedAt = time.Time{} }, []Spell{{From: at("18:30"), Air: Celsius(24)}}, "20:30"},
		{"dressed from the fridge", func(f *PlanFacts) { f.Dishes[0].DressedAt = at("18:10") }, []Spell{{From: at("18:10"), Air: Celsius(24)}}, "20:10"},
		{"dressed as it goes into the fridge", func(f *PlanFacts) { f.Dishes[0].DressedAt = at("16:45") }, []Spell{{From: at("16:45"), Air: Celsius(24)}}, "18:45"},
		{"dressed at the table", func(f *PlanFacts) { f.Dishes[0].DressedAt = at("18:40") }, []Spell{{From: at("18:30"), Air: Celsius(24)}}, "20:30"},
		{"with its own spells", func(f *PlanFacts) {
			f.Dishes[0].History.Out = []Spell{{From: at("17:00"), To: at("17:20")}}
		}, []Spell{{From: at("17:00"), To: at("17:20")}, {From: at("18:30"), Air: Celsius(24)}}, "20:10"},
		{"with a spell that goes on", func(f *PlanFacts) {
			f.Dishes[0].History.Out = []Spell{{From: at("18:00"), Air: Celsius(34)}}
		}, []Spell{{From: at("18:00"), Air: Celsius(34)}}, "19:00"},
		{"into the fridge after the table", func(f *PlanFacts) {
			f.Dishes[0].History.CookedAt, f.Dishes[0].History.ChilledAt = at("18:00"), at("19:00")
		}, nil, "20:00"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			facts := planFacts(t)
			c.change(&facts)
			b := facts.HistoryOf(facts.Dishes[0])
			assert.Equal(t, c.out, b.Out)
			assert.Equal(t, Celsius(24), b.Air)
			assert.Equal(t, Celsius(4), b.Fridge)
			d, err := DeadlineOf(b, Strictest, facts.TableFrom)
			require.NoError(t, err)
			assert.Equal(t, at(c.eaten), d.Until)
			notes, err := PlanNotes(facts)
			require.NoError(t, err)
			onTable := slices.IndexFunc(notes, func(n Note) bool { return n.Kind == NoteTable || n.Kind == NoteStraight })
			assert.Equal(t, at(c.eaten), notes[onTable].At)
		})
	}
	facts := planFacts(t)
	facts.TableFrom = time.Time{}
	assert.Empty(t, facts.HistoryOf(facts.Dishes[0]).Out, "no serving time, not dressed from the fridge")
	facts.Dishes[0].DressedAt = at("18:10")
	assert.Equal(t, []Spell{{From: at("18:10"), Air: Celsius(24)}}, facts.HistoryOf(facts.Dishes[0]).Out)
	facts.Dishes[0].History.Air, facts.Dishes[0].History.Fridge = Celsius(30), Celsius(3)
	b := facts.HistoryOf(facts.Dishes[0])
	assert.Equal(t, []Temperature{Celsius(30), Celsius(3)}, []Temperature{b.Air, b.Fridge}, "the dish's own come first")
}
