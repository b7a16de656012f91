package render

import (
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/recipes/meal"
	"trencher/recipes/schedule"
)

var stamp = time.Date(2031, 7, 12, 14, 0, 0, 0, time.UTC)

func calendarOf(t *testing.T, plan meal.Plan) string {
	t.Helper()
	var text strings.Builder
	require.NoError(t, Calendar(&text, plan, stamp, ""))
	return text.String()
}

func eventsOf(t *testing.T, plan meal.Plan) []*component {
	t.Helper()
	top, faults := readCalendar(calendarOf(t, plan))
	require.Empty(t, faults)
	return top.all("VCALENDAR")[0].all("VEVENT")
}

func TestCalendarKeepsTheStandard(t *testing.T) {
	for name, plan := range allPlans() {
		t.Run(name, func(t *testing.T) {
			if len(plan.Steps) == 0 {
				assert.ErrorIs(t, Calendar(io.Discard, plan, stamp, ""), ErrNoTimetable)
				return
			}
			events := eventsOf(t, plan)
			require.GreaterOrEqual(t, len(events), len(plan.Steps))
			for i, event := range events[:len(plan.Steps)] {
				step := plan.Steps[i]
				assert.Equal(t, step.At.UTC().Format("20060102T150405Z"), event.values("DTSTART")[0])
				assert.Equal(t, "20310712T140000Z", event.values("DTSTAMP")[0])
				summary := unescape(event.values("SUMMARY")[0])
				assert.True(t, summary == readable(stepWords(plan, step)), summary)
				alarms := event.all("VALARM")
				require.Len(t, alarms, 1)
				assert.Equal(t, []string{"PT0S"}, alarms[0].values("TRIGGER"), "the phone buzzes at the start")
			}
		})
	}
}

// The validator must see a breach, or its silence means nothing.
func TestCalendarReaderSeesBreaches(t *testing.T) {
	good := calendarOf(t, examplePlan())
	breaches := map[string][2]string{
		"bare line feed":     {"VERSION:2.0\r\n", "VERSION:2.0\n"},
		"no version":         {"VERSION:2.0\r\n", ""},
		"no stamp":           {"DTSTAMP:20310712T140000Z\r\n", ""},
		"floating time":      {"DTSTART:20310719T135500Z", "DTSTART:20310719T135500"},
		"end before start":   {"DTEND:20310719T140700Z", "DTEND:20310719T134900Z"},
		"unescaped comma":    {"SUMMARY:", "SUMMARY:a, b"},
		"alarm without text": {"TRIGGER:PT0S\r\nDESCRIPTION:", "TRIGGER:PT0S\r\nX-NOTE:"},
		"trigger no length":  {"TRIGGER:PT0S", "TRIGGER:0"},
		"unclosed event":     {"END:VEVENT\r\n", ""},
		"a long line":        {"VERSION:2.0", "X-LONG:" + strings.Repeat("x", 80) + "\r\nVERSION:2.0"},
		"split character":    {"VERSION:2.0", "X-A:\xc3\r\n \xa4\r\nVERSION:2.0"},
	}
	for name, breach := range breaches {
		t.Run(name, func(t *testing.T) {
			require.Contains(t, good, breach[0])
			_, faults := readCalendar(strings.Replace(good, breach[0], breach[1], 1))
			assert.NotEmpty(t, faults)
		})
	}
}

// rewritten is the calendar of a plan written over that of an earlier one.
func rewritten(t *testing.T, plan meal.Plan, earlier string) (text string, events map[string]*component) {
	t.Helper()
	var written strings.Builder
	require.NoError(t, Calendar(&written, plan, stamp.Add(time.Hour), earlier))
	top, faults := readCalendar(written.String())
	require.Empty(t, faults)
	events = map[string]*component{}
	for _, e := range top.all("VCALENDAR")[0].all("VEVENT") {
		events[e.values("UID")[0]] = e
	}
	return written.String(), events
}

// Planning the same meal again counts up what has moved, leaves what has not, and
// cancels what is gone; another day's calendar starts anew. RFC 5545, sections
// 3.8.7.4 (SEQUENCE) and 3.8.1.11 (STATUS).
func TestCalendarOfAMealPlannedAgain(t *testing.T) {
	plan := examplePlan()
	first, events := rewritten(t, plan, "")
	for _, e := range events {
		assert.Equal(t, []string{"0"}, e.values("SEQUENCE"))
		assert.Empty(t, e.values("STATUS"))
	}
	same, events := rewritten(t, plan, first)
	for _, e := range events {
		assert.Equal(t, []string{"0"}, e.values("SEQUENCE"), "nothing has changed")
	}
	moved := examplePlan()
	gone := moved.Steps[1]
	moved.Steps = append([]meal.Step{moved.Steps[0]}, moved.Steps[2:]...)
	moved.Steps[0].At = moved.Steps[0].At.Add(-5 * time.Minute)
	seen := map[string]int{}
	firstID := stepID(plan, plan.Steps[0], seen)
	goneID := stepID(plan, gone, seen)
	again, events := rewritten(t, moved, same)
	assert.Equal(t, []string{"1"}, events[firstID].values("SEQUENCE"))
	assert.Equal(t, []string{"1"}, events[goneID].values("SEQUENCE"))
	assert.Equal(t, []string{"CANCELLED"}, events[goneID].values("STATUS"))
	assert.Empty(t, events[goneID].all("VALARM"), "what is cancelled does not buzz")
	cancelled := 0
	for _, e := range events {
		cancelled += len(e.values("STATUS"))
	}
	assert.Equal(t, 1, cancelled)
	_, events = rewritten(t, moved, again)
	assert.Equal(t, []string{"1"}, events[goneID].values("SEQUENCE"), "cancelled once")
	_, events = rewritten(t, plan, again)
	assert.Equal(t, []string{"2"}, events[goneID].values("SEQUENCE"))
	assert.Empty(t, events[goneID].values("STATUS"), "it is back")

	tomorrow := examplePlan()
	tomorrow.On = tomorrow.On.AddDate(0, 0, 1)
	_, events = rewritten(t, tomorrow, first)
	for _, e := range events {
		assert.Equal(t, []string{"0"}, e.values("SEQUENCE"))
		assert.Empty(t, e.values("STATUS"), "today's meal is not tomorrow's to cancel")
	}
	_, events = rewritten(t, plan, "BEGIN:VEVENT\r\nSEQUENCE:x\r\nEND:VCALENDAR\r\nEND:X\r\n:\r\nno line")
	assert.NotEmpty(t, events, "what is no calendar of ours tells nothing")
}

// Each dish's time has an end that buzzes ten minutes before, and what is
// dressed, finished and served says it.
func TestCalendarTellsTheEndOfEachDish(t *testing.T) {
	plan := examplePlan()
	require.NotEmpty(t, plan.Clocks)
	_, events := rewritten(t, plan, "")
	for _, clock := range plan.Clocks {
		told, ends := 0, 0
		for _, e := range events {
			if strings.Contains(unescape(strings.Join(e.values("DESCRIPTION"), "")), clock.Dish+": "+endWords(clock, plan)) {
				told++
			}
			if e.values("DTSTART")[0] == utc(endOf(clock)) && strings.Contains(unescape(e.values("SUMMARY")[0]), clock.Dish) && e.all("VALARM")[0].values("TRIGGER")[0] == "-PT10M" {
				ends++
			}
		}
		assert.Equal(t, 1, ends, clock.Dish)
		assert.GreaterOrEqual(t, told, 2, clock.Dish)
	}
}

func TestCalendarSecondImportReplaces(t *testing.T) {
	first := eventsOf(t, examplePlan())
	later := examplePlan()
	later.ServeAt = later.ServeAt.Add(45 * time.Minute)
	for i := range later.Steps {
		later.Steps[i].At = later.Steps[i].At.Add(45 * time.Minute)
		later.Steps[i].Length += time.Minute
	}
	second := eventsOf(t, later)
	for i := range later.Steps {
		assert.Equal(t, first[i].values("UID"), second[i].values("UID"), "a moved and longer step keeps its UID")
		assert.NotEqual(t, first[i].values("DTSTART"), second[i].values("DTSTART"))
	}
	tomorrow := examplePlan()
	tomorrow.On = tomorrow.On.AddDate(0, 0, 1)
	assert.NotEqual(t, first[0].values("UID"), eventsOf(t, tomorrow)[0].values("UID"), "another day is another event")
}

// finishing is a plan of finishing steps for a dish of that name.
func finishing(name string, steps ...meal.Step) meal.Plan {
	for i := range steps {
		steps[i].Kind, steps[i].Dishes, steps[i].Hands = schedule.Finish, []string{name}, 1
	}
	return meal.Plan{On: at(0, 0), Steps: steps}
}

func stepAt(at time.Time, minutes int) meal.Step {
	step := meal.Step{Timed: schedule.Timed{At: at}}
	step.Length = time.Duration(minutes) * time.Minute
	return step
}

// Two rounds on the night the clocks go back: the local time 01:30 comes
// twice, and the two must stay an hour apart. Zone data: 26 October 2031 is
// the last Sunday of October, when summer time ends at 01:00 UTC in the
// United Kingdom (Summer Time Order 2002) (computed).
func TestCalendarOverTheClockChange(t *testing.T) {
	summer, winter := time.FixedZone("BST", 3600), time.FixedZone("GMT", 0)
	plan := finishing("roots", stepAt(time.Date(2031, 10, 26, 1, 30, 0, 0, summer), 90), stepAt(time.Date(2031, 10, 26, 1, 30, 0, 0, winter), 20))
	events := eventsOf(t, plan)
	assert.Equal(t, "20311026T003000Z", events[0].values("DTSTART")[0])
	assert.Equal(t, "20311026T020000Z", events[0].values("DTEND")[0])
	assert.Equal(t, "20311026T013000Z", events[1].values("DTSTART")[0])
}

// readable is a text as a calendar may hold it: without control characters.
func readable(text string) string { return unescape(escapeText(text)) }

func TestCalendarText(t *testing.T) {
	name := "Käse; Öl, \\ and\r\nmore \x00\x07 " + strings.Repeat("–ß", 60)
	event := eventsOf(t, finishing(name, stepAt(at(18, 0), 0)))[0]
	want := "Finish Käse; Öl, \\ and\nmore  " + strings.Repeat("–ß", 60)
	assert.Equal(t, want, unescape(event.values("SUMMARY")[0]))
	assert.Empty(t, event.values("DTEND"), "a moment has no end")
}

func TestCalendarPassesWriteErrorsOn(t *testing.T) {
	full := errors.New("no space left")
	assert.ErrorIs(t, Calendar(failingWriter{full}, examplePlan(), stamp, ""), full)
	assert.ErrorIs(t, Sheet(failingWriter{full}, examplePlan()), full)
}

type failingWriter struct{ err error }

func (w failingWriter) Write([]byte) (int, error) { return 0, w.err }

// FuzzCalendarText holds escaping and folding to the standard for any text.
func FuzzCalendarText(f *testing.F) {
	for _, seed := range []string{"", "Steam 1.2 kg", "a\\n;b,c", "\r\n\n\r", strings.Repeat("ö", 80), "🥔🥔\x00", "\xff\xfe"} {
		f.Add(seed, seed)
	}
	f.Fuzz(func(t *testing.T, crop, dish string) {
		plan := finishing(dish, stepAt(at(18, 0), 5))
		plan.Steps[0].Crop = crop
		var text strings.Builder
		require.NoError(t, Calendar(&text, plan, stamp, ""))
		_, faults := readCalendar(text.String())
		assert.Empty(t, faults)
	})
}

// The five moments that a cook is called for, each with its alarm: putting in, the
// first knife test, taking out, dressing, and back in the cold.
func TestCalendarCallsForEachMoment(t *testing.T) {
	_, events := rewritten(t, examplePlan(), "")
	calls := func(t *testing.T, plan meal.Plan, events map[string]*component, moment time.Time, trigger, says string) {
		t.Helper()
		for _, e := range events {
			for _, alarm := range e.all("VALARM") {
				if e.values("DTSTART")[0] == utc(moment) && slices.Equal(alarm.values("TRIGGER"), []string{trigger}) && strings.Contains(unescape(e.values("SUMMARY")[0]), says) {
					return
				}
			}
		}
		t.Errorf("nothing calls at %s for %q", utc(moment), says)
	}
	plan := examplePlan()
	for _, c := range []struct {
		moment string
		kinds  []schedule.Kind
		says   string
	}{
		{"putting in", []schedule.Kind{schedule.Load}, "Put "},
		{"the first knife test", []schedule.Kind{schedule.Test}, "knife"},
		{"taking out", []schedule.Kind{schedule.Unload, schedule.LiftOut}, "out"},
		{"dressing", []schedule.Kind{schedule.Dress, schedule.Finish}, ""},
	} {
		t.Run(c.moment, func(t *testing.T) {
			called := 0
			for _, step := range plan.Steps {
				if slices.Contains(c.kinds, step.Kind) {
					called++
					calls(t, plan, events, step.At, atStart, c.says)
				}
			}
			assert.Positive(t, called)
		})
	}
	t.Run("the first of the knife tests of a filling", func(t *testing.T) {
		for _, run := range plan.Runs {
			first := slices.IndexFunc(plan.Steps, func(s meal.Step) bool { return s.Kind == schedule.Test && s.Run == run.ID })
			require.GreaterOrEqual(t, first, 0, "every filling is tested")
		}
	})
	t.Run("back in the cold by", func(t *testing.T) {
		for _, clock := range plan.Clocks {
			calls(t, plan, events, endOf(clock), tenMinutesBefore, clock.Dish)
		}
	})
	t.Run("taking out what bakes", func(t *testing.T) {
		bake := stepAt(at(17, 0), 40)
		bake.ID, bake.Kind, bake.Crop, bake.Dishes, bake.Parts = "s1", schedule.Own, "potato", []string{"Baked"}, []meal.PartAt{{}}
		_, events := rewritten(t, meal.Plan{On: at(0, 0), Steps: []meal.Step{bake}, Dishes: []meal.Dish{{Parts: make([]meal.Part, 1)}}}, "")
		require.Len(t, events, 1)
		for _, e := range events {
			alarms := e.all("VALARM")
			require.Len(t, alarms, 2)
			assert.Equal(t, utc(at(17, 40)), e.values("DTEND")[0])
			assert.Contains(t, alarms[1].values("DESCRIPTION")[0], "Take it out")
		}
	})
}
