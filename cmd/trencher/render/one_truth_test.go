package render

import (
	"encoding/json"
	"fmt"
	"html"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/cmd/trencher/ask"
	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

// saidJSON is what a script reads of a plan: the facts that every other face must
// agree with.
type saidJSON struct {
	StartAt   time.Time `json:"start_at"`
	ServeAt   time.Time `json:"serve_at"`
	Timetable []struct {
		At      time.Time `json:"at"`
		Minutes int       `json:"minutes"`
		Kind    string    `json:"kind"`
		Do      string    `json:"do"`
	} `json:"timetable"`
	Dishes []struct {
		Name     string `json:"name"`
		Portions int    `json:"portions"`
		Crops    []struct {
			Lifted decimal.Decimal `json:"lifted_g"`
			Steam  *struct {
				Minutes, Low, High float64
			} `json:"steam"`
		} `json:"crops"`
		Others []struct {
			Item     string `json:"item"`
			Measured string `json:"measured"`
		} `json:"others"`
	} `json:"dishes"`
	Clocks []struct {
		Dish    string    `json:"dish"`
		LimitAt time.Time `json:"limit_at"`
		Holds   bool      `json:"holds"`
	} `json:"clocks"`
	Keep []struct {
		Says string `json:"says"`
	} `json:"keep"`
}

// faces are the words of a plan as a person reads them on each face, in one line.
func faces(t *testing.T, plan meal.Plan) (facts saidJSON, said map[string]string) {
	t.Helper()
	answer := ask.MealAnswer{Plan: plan}
	var scripts, text, sheet, calendar strings.Builder
	require.NoError(t, PlanJSON(&scripts, answer, false))
	require.NoError(t, json.Unmarshal([]byte(scripts.String()), &facts))
	require.NoError(t, PlanText(&text, answer, false, true))
	require.NoError(t, Sheet(&sheet, plan))
	screen, err := PlanScreen(plan, plan.On)
	require.NoError(t, err)
	said = map[string]string{"text": oneLine(text.String()), "sheet": oneLine(words(sheet.String())),
		"screen": oneLine(words(string(screen.Head) + string(screen.Rest)))}
	if len(plan.Steps) > 0 {
		require.NoError(t, Calendar(&calendar, plan, plan.On, ""))
		said["calendar"] = oneLine(calendarWords(plan, calendar.String()))
	}
	return facts, said
}

func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

var (
	styles = regexp.MustCompile(`(?s)<(style|svg).*?</(style|svg)>`)
	tags   = regexp.MustCompile(`<[^>]*>`)
)

// words are the text of a page.
func words(page string) string {
	return html.UnescapeString(tags.ReplaceAllString(styles.ReplaceAllString(page, " "), " "))
}

// calendarWords are the events of a calendar as a phone lists them: when, what,
// and what stands with it.
func calendarWords(plan meal.Plan, text string) string {
	var said strings.Builder
	for _, line := range strings.Split(unfolded(text), "\r\n") {
		name, value, _ := strings.Cut(line, ":")
		value = strings.NewReplacer(`\n`, " ", `\,`, ",", `\;`, ";", `\\`, `\`).Replace(value)
		switch name {
		case "DTSTART":
			at, err := time.Parse("20060102T150405Z", value)
			if err == nil {
				value = at.In(plan.On.Location()).Format("15:04")
			}
			fmt.Fprintln(&said, value)
		case "SUMMARY", "DESCRIPTION":
			fmt.Fprintln(&said, value)
		}
	}
	return said.String()
}

// One plan, one truth: every step's moment, every knife time, every amount and
// every deadline that a script reads stands on each face that a person reads, and
// no face has a knife time that the others have not.
func TestEveryFaceTellsTheSame(t *testing.T) {
	plans := 20
	if os.Getenv("TRENCHER_LONG") != "" {
		plans = 200
	}
	seen, facts := 0, 0
	for seed := uint64(1); seen < plans; seed++ {
		plan, ok := randomPlan(t, rand.New(rand.NewPCG(seed, 404)))
		if !ok {
			continue
		}
		seen++
		t.Run(fmt.Sprint(seed), func(t *testing.T) { facts += requireOneTruth(t, plan) })
	}
	t.Logf("%d plans, %d facts on every face, 0 disagreements", seen, facts)
}

func requireOneTruth(t *testing.T, plan meal.Plan) (facts int) {
	read, said := faces(t, plan)
	has := func(face, fact string) {
		t.Helper()
		facts++
		assert.True(t, strings.Contains(said[face], oneLine(fact)), "the %s does not tell %q", face, oneLine(fact))
	}
	for _, step := range read.Timetable {
		at := step.At.In(plan.On.Location()).Format("15:04")
		for face := range said {
			facts++
			between := map[string]string{"text": ` (?:\d+ h )?(?:\d+ min )?`, "sheet": ` (?:\d+ )?`, "screen": " ", "calendar": " "}[face]
			tells := regexp.MustCompile(at + between + regexp.QuoteMeta(oneLine(step.Do))).MatchString(said[face])
			assert.True(t, tells, "the %s does not tell %q at %s", face, step.Do, at)
		}
	}
	knives := regexp.MustCompile(`knife (\d\d:\d\d)`)
	times := func(face string) map[string]bool {
		set := map[string]bool{}
		for _, m := range knives.FindAllStringSubmatch(said[face], -1) {
			set[m[1]] = true
		}
		return set
	}
	expected := map[string]bool{}
	for _, step := range plan.Steps {
		if step.Kind == schedule.Steam {
			expected[plan.KnifeAt(step).Format("15:04")] = true
		}
	}
	for face := range said {
		assert.Equal(t, expected, times(face), "the knife times of the %s", face)
	}
	for d, dish := range read.Dishes {
		for _, face := range []string{"text", "sheet", "screen"} {
			has(face, dish.Name)
			for _, other := range dish.Others {
				has(face, other.Measured)
			}
		}
		for c, crop := range dish.Crops {
			grams := crop.Lifted.Round(0).String() + " g"
			if crop.Lifted.GreaterThanOrEqual(decimal.NewFromFloat(999.5)) {
				grams = crop.Lifted.Shift(-3).StringFixed(2) + " kg"
			}
			has("text", grams+" as lifted")
			has("sheet", grams)
			has("screen", grams)
			if s := crop.Steam; s != nil {
				part := plan.Dishes[d].Parts[c].Steam
				assert.InDelta(t, part.Low, s.Low, 0.0501)
				from, to := int(math.Max(1, math.Floor(part.Low+1e-6))), int(math.Ceil(part.High-1e-6))
				has("text", fmt.Sprintf("from %d, up to %d min", from, to))
				has("sheet", fmt.Sprintf("(%d–%d)", from, to))
				has("sheet", fmt.Sprintf("try a knife from %d min", from))
				has("screen", fmt.Sprintf("try a knife from %d min", from))
			}
		}
	}
	for _, clock := range read.Clocks {
		if !clock.Holds {
			by := "Serve it by " + clockOn(clock.LimitAt.In(plan.On.Location()), plan.On)
			for face := range said {
				facts++
				assert.Equal(t, strings.Contains(said["text"], by), strings.Contains(said[face], by), "%q on the %s and in the text", by, face)
			}
		}
	}
	for _, note := range read.Keep {
		has("text", note.Says)
		_, says, ofDish := strings.Cut(note.Says, ": ") // elsewhere notes stand together behind one mention of their dishes
		if !ofDish {
			says = note.Says
		}
		for _, face := range []string{"sheet", "screen"} {
			facts++
			assert.True(t, strings.Contains(strings.ToLower(said[face]), strings.ToLower(oneLine(says))), "the %s does not tell %q", face, says)
		}
	}
	if len(plan.Steps) > 0 {
		for _, face := range []string{"text", "screen"} {
			has(face, "Start "+clockOn(read.StartAt.In(plan.On.Location()), plan.On))
		}
		has("text", "on the table "+clockOn(read.ServeAt.In(plan.On.Location()), plan.On))
		has("screen", "On the table "+clockOn(read.ServeAt.In(plan.On.Location()), plan.On))
	}
	return facts
}
