package keeping

import (
	"bytes"
	"encoding/csv"
	"errors"
	"flag"
	"fmt"
	"hash/fnv"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

const answersFile = "../../testdata/keeping/answers.txt"

var updateAnswers = flag.Bool("update-answers", false, "write down today's answers; read what of each differs")

// Verdicts, deadlines and notes on random histories, and the foods that words make, as
// they were when somebody last looked them through: moments in minutes from cooking, the
// rules, and a number made of every sentence. What is right is for the other tests to
// say, by the rules' own words; this one notices that an answer has become another.
func TestAnswersStayAsTheyAre(t *testing.T) {
	lines := append(judgedAnswers(t), notedAnswers(t)...)
	lines = append(lines, foodAnswers(t)...)
	lines = append(lines, typedAnswers()...)
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

// since is a moment in minutes from dawn, to the nanosecond where it is not whole.
func since(at time.Time) string {
	switch d := at.Sub(dawn); {
	case at.IsZero():
		return "-"
	case d%time.Minute == 0:
		return fmt.Sprint(int(d.Minutes()))
	default:
		return d.String()
	}
}

func sum(texts ...string) string {
	h := fnv.New32a()
	_, _ = h.Write([]byte(strings.Join(texts, "\n")))
	return fmt.Sprintf("%08x", h.Sum32())
}

func written(v Verdict) string {
	var texts []string
	for _, r := range append(append([]Reason{}, v.Reasons...), v.Warnings...) {
		texts = append(texts, r.Says, fmt.Sprint(r.Ours))
	}
	return fmt.Sprintf("%s %s %s until %s keep %s since %s missing %q %t %t %s %s", v.Kind, v.Food.ID, v.Authority, since(v.Until), since(v.KeepBy), since(v.Since),
		v.Missing, v.Referred, v.NotForThem, strings.Join(v.Rules(), ","), sum(append(texts, v.Says()...)...))
}

func judgedAnswers(t *testing.T) (lines []string) {
	r := rand.New(rand.NewPCG(19, 97))
	all := append(Authorities(), Strictest)
	for n := 0; n < 700; n++ {
		line := randomTimeline(r)
		if n%2 == 1 {
			line = unfinished(r, line)
		}
		a := all[n%len(all)]
		if err := line.batch.Check(line.now); err != nil {
			lines = append(lines, fmt.Sprintf("history %d: %s", n, sum(saidWrong(err)...)))
			continue
		}
		d, err := DeadlineOf(line.batch, a, line.now)
		require.NoError(t, err)
		clock, before := d.Clock()
		lines = append(lines, fmt.Sprintf("history %d: %s; until %s, %s %t %s", n, written(d.Verdict), since(d.Until), since(clock), before, strings.Join(d.Rules, ",")))
	}
	return lines
}

// saidWrong is what an error says of a field.
func saidWrong(err error) []string {
	var wrong *units.FieldError
	if errors.As(err, &wrong) {
		return []string{wrong.Field, wrong.Value, wrong.Problem, wrong.Accepted}
	}
	return []string{fmt.Sprint(err)}
}

func notedAnswers(t *testing.T) (lines []string) {
	r := rand.New(rand.NewPCG(1, 60))
	all := append(Authorities(), Strictest)
	for n := range 150 {
		facts := PlanFacts{Air: pick(r, Temperature{}, Celsius(20), Celsius(33)), Fridge: pick(r, Temperature{}, Celsius(4), Celsius(7)), NoFridge: r.IntN(4) == 0,
			Vulnerable: r.IntN(4) == 0, Authority: all[n%len(all)]}
		for i := range 1 + r.IntN(3) {
			b := Batch{Food: pick(r, BatchFoods()...), CookedAt: dawn.Add(hours(r))}
			d := PlanDish{Name: fmt.Sprint("dish ", i)}
			if r.IntN(2) == 0 {
				b.ChilledAt = b.CookedAt.Add(hours(r))
				if r.IntN(2) == 0 {
					d.DressedAt = b.ChilledAt.Add(hours(r) - 20*time.Minute)
				}
			}
			if r.IntN(4) == 0 {
				b.HotAt, b.HotUntil = Celsius(pick(r, 60.0, 63, 70)), b.CookedAt.Add(hours(r))
			}
			if r.IntN(6) == 0 {
				b.HeatedUp = !b.ChilledAt.IsZero()
			}
			d.History = b
			d.Heaped, d.Spread = hours(r)*2, pick[time.Duration](r, 0, 1, 10, 100)*time.Minute
			facts.Dishes = append(facts.Dishes, d)
		}
		if r.IntN(5) > 0 {
			facts.TableFrom = dawn.Add(4 * time.Hour).Add(hours(r))
		}
		notes, err := PlanNotes(facts)
		if err != nil {
			lines = append(lines, fmt.Sprintf("plan %d: %s", n, sum(saidWrong(err)...)))
			continue
		}
		var b strings.Builder
		for _, note := range notes {
			fmt.Fprintf(&b, "; %s %s %s %t %s %s", note.Kind, strings.Join(note.Dishes, "+"), since(note.At), note.Danger, strings.Join(note.Rules, ","), sum(note.Says))
		}
		lines = append(lines, fmt.Sprintf("plan %d%s", n, b.String()))
	}
	for n := range 32 {
		notes := PlotNotes(PlotFacts{n&1 > 0, n&2 > 0, n&4 > 0, n&8 > 0, n&16 > 0})
		lines = append(lines, fmt.Sprintf("plot %d: %d %s", n, len(notes), sum(fmt.Sprint(notes))))
	}
	return append(lines, "standing "+sum(fmt.Sprint(StandingNotes())), "cautions "+sum(Cautions(true)...)+" "+sum(Cautions(false)...))
}

// foodAnswers are the foods of every phrase of words.csv, as an ingredient, a step and a
// name, cold and not, and those of the labelled dishes.
func foodAnswers(t *testing.T) (lines []string) {
	rows, err := csv.NewReader(bytes.NewReader(wordData)).ReadAll()
	require.NoError(t, err)
	found := func(r Recipe) string {
		k := KindsOf(r)
		return fmt.Sprint(k.Foods, k.Unknown, sum(fmt.Sprint(k.Because, k.spoken, k.NotForVulnerable(), k.Rules())))
	}
	eggs := [...]string{"Fry the onion. Add the egg. Cook it through.", "Whisk the yolk. Boil the potato in water.", "Serve with egg on top; bake."}
	for i, row := range rows[1:] {
		for k, phrase := range strings.Split(row[0], ";") {
			cold, step := (i+k)%2 == 0, eggs[(i+k)%3]
			lines = append(lines, fmt.Sprintf("%s: %s %s %s", phrase,
				found(Recipe{Name: "Supper", Cold: cold, Items: []string{phrase}, Method: []string{step}}),
				found(Recipe{Name: "Supper", Cold: !cold, Crops: []string{"potato"}, Raw: []string{"lettuce"}, Method: []string{"Add the " + phrase + ". Chill."}}),
				found(Recipe{Name: phrase, Crops: []string{"sweet potato", "beetroot"}, Items: []string{"salt", "gherkin", "griffin"}, Unknown: []string{"griffin"}})))
		}
	}
	for _, name := range append(FoodIDs(), "potatoe", "carrot", "raw carrot", "msah", "mah", "boild potatos", "canned beans", "bottled beets", "ris", "ice", "mash + carrot", "mash + granite", "griffin stew", "Mayonnaise", "cooked rice", "potato") {
		named, err := NameFood(name)
		batch, err2 := NameBatch(name)
		line := fmt.Sprintf("called %s: %v %s %v %s", name, named, sum(saidWrong(err)...), batch, sum(saidWrong(err2)...))
		if g, err := Guide(name); err == nil {
			line += " " + sum(fmt.Sprint(g.Short, g.With(UnitedKingdom).Sections, g.Cautions, g.Rules()))
		}
		lines = append(lines, line)
	}
	for _, a := range append(Authorities(), Strictest) {
		lines = append(lines, fmt.Sprintf("by %s: %s; %s", a, sum(fmt.Sprint(LimitsOf(a))), strings.Join(ByRank(FoodIDs(), a), ",")))
	}
	return lines
}

// typedAnswers are histories as they are typed, right and wrong.
func typedAnswers() (lines []string) {
	clock := units.Clock{Now: dawn.Add(9 * time.Hour), Zone: time.UTC}
	for i, q := range []Words{
		{Food: "mash", CookedAt: "12:00", ChilledAt: "13:10", Air: "68 F", Fridge: "4 C", Out: []string{" 13:20 .. 13:50 ", "14:00.."}, PowerOff: []string{"2031-07-11 20:00 .. 2031-07-11 22:00"}, Probes: []string{" 14:30 = 25 C "}, Reheated: 1},
		{Food: "mash + carrot", CookedAt: "12:00", HotAt: "65 C", HotUntil: "13:00", FrozenAt: "13:30", ThawedAt: "14:30", Freezer: "half", Ice: "yes", Box: "frozen", Eggs: "scheme", Bitter: "no", Tubers: "green"},
		{Food: "dressed-salad", Eater: "pregnant"}, {Eater: "low-immunity", Fridge: "40 F"}, {Eater: "child"}, {Eater: "old"}, {Eater: "vulnerable"}, {Eater: "dog"}, {Food: "granite mash"}, {Food: "carott"},
		{CookedAt: "noonish"}, {ChilledAt: "25:00"}, {HotAt: "hot"}, {HotUntil: "x"}, {FrozenAt: "x"}, {ThawedAt: "x"}, {Air: "3-4 C"}, {Air: "3 kg"}, {Fridge: "cold"},
		{Out: []string{"13:00"}}, {Out: []string{"..13:00"}}, {Out: []string{"x..13:00"}}, {Out: []string{"12:00..x"}}, {Out: []string{"13:00..12:00"}}, {PowerOff: []string{"12"}}, {Probes: []string{"13:00"}}, {Probes: []string{"x=4 C"}}, {Probes: []string{"13:00=cold"}},
		{Ice: "maybe"}, {Bitter: "maybe"},
	} {
		b, err := q.Batch(clock, Celsius(5))
		home, err2 := q.Household(Celsius(6))
		lines = append(lines, fmt.Sprintf("typed %d: %s; %s; %s %s", i, sum(fmt.Sprintf("%+v", b)), strings.Join(saidWrong(err), " | "), sum(fmt.Sprintf("%+v", home)), sum(saidWrong(err2)...)))
	}
	return lines
}
