package keeping

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// Of two limits the stricter is taken; of equal ones both rules are named. No
// limit at all gives way to any.
func TestTheStricterLimit(t *testing.T) {
	h := func(hours int, under bool, rules ...string) Span {
		return Span{Most: time.Duration(hours) * time.Hour, Under: under, Rules: rules}
	}
	spans := []struct{ a, b, want Span }{
		{h(2, false, "a"), h(4, true, "b"), h(2, false, "a")},
		{h(4, true, "a"), h(2, false, "b"), h(2, false, "b")},
		{h(2, false, "a"), h(2, true, "b"), h(2, true, "a", "b")},
		{h(2, false, "a"), h(2, false, "a"), h(2, false, "a")},
		{h(2, false, "a"), Span{}, h(2, false, "a")},
		{Span{}, h(2, true, "b"), h(2, true, "b")},
		{Span{}, Span{}, Span{}},
	}
	for _, c := range spans {
		assert.Equal(t, c.want, shorter(c.a, c.b))
	}
	d := func(c float64, rules ...string) Degrees { return Degrees{c, rules} }
	degrees := []struct{ a, b, colder, hotter Degrees }{
		{d(5, "a"), d(8, "b"), d(5, "a"), d(8, "b")},
		{d(8, "a"), d(5, "b"), d(5, "b"), d(8, "a")},
		{d(5, "a"), d(5, "b"), d(5, "a", "b"), d(5, "a", "b")},
		{d(5, "a"), Degrees{}, d(5, "a"), d(5, "a")},
		{Degrees{}, d(-5, "b"), d(-5, "b"), d(-5, "b")},
		{Degrees{}, d(5, "b"), d(5, "b"), d(5, "b")},
	}
	for _, c := range degrees {
		assert.Equal(t, c.colder, colder(c.a, c.b))
		assert.Equal(t, c.hotter, hotter(c.a, c.b))
	}
	times := []struct{ a, b, want Times }{
		{Times{1, []string{"a"}}, Times{2, []string{"b"}}, Times{1, []string{"a"}}},
		{Times{2, []string{"a"}}, Times{1, []string{"b"}}, Times{1, []string{"b"}}},
		{Times{1, []string{"a"}}, Times{1, []string{"b"}}, Times{1, []string{"a", "b"}}},
		{Times{}, Times{1, []string{"b"}}, Times{1, []string{"b"}}},
		{Times{1, []string{"a"}}, Times{}, Times{1, []string{"a"}}},
	}
	for _, c := range times {
		assert.Equal(t, c.want, fewer(c.a, c.b))
	}
}

func TestJoiningLeavesTheFirstListAsItIs(t *testing.T) {
	ids := append(make([]string, 0, 4), "a", "b")
	assert.Equal(t, []string{"a", "b", "c"}, joined(ids, []string{"b", "c"}, []string{"c"}))
	assert.Equal(t, []string{"a", "b", "d"}, joined(ids, []string{"d"}))
	assert.Equal(t, []string{"a", "b", "", ""}, ids[:4])
}

func TestSpanIsPassed(t *testing.T) {
	two := Span{Most: 2 * time.Hour, Rules: []string{"a"}}
	under := two
	under.Under = true
	assert.False(t, two.Passed(2*time.Hour))
	assert.True(t, two.Passed(2*time.Hour+1))
	assert.False(t, under.Passed(2*time.Hour-1))
	assert.True(t, under.Passed(2*time.Hour))
	assert.False(t, Span{}.Passed(1000*time.Hour), "no limit is never passed")
}

// A moment in the words of the kitchen: the time alone today, the day within
// the week, else the date.
func TestClockTimes(t *testing.T) {
	now := time.Date(2031, 7, 12, 16, 0, 0, 0, time.UTC)
	for days, want := range map[int]string{
		0: "16:00", 1: "Sun 16:00", -1: "Fri 16:00", 6: "Fri 16:00", -6: "Sun 16:00",
		7: "Sat 19 Jul 16:00", -7: "Sat 5 Jul 16:00", 365: "Sun 11 Jul 2032 16:00",
	} {
		assert.Equal(t, want, clockTime(now.AddDate(0, 0, days), now), days)
	}
	assert.Equal(t, "Sun 01:30", clockTime(now.Add(8*time.Hour+30*time.Minute), now.In(time.FixedZone("", 3600))))
	for d, want := range map[time.Duration]string{
		30 * time.Second: "under a minute", time.Minute: "1 min", 59*time.Minute + 59*time.Second: "59 min",
		time.Hour: "1 h", 90 * time.Minute: "1 h 30 min", 48 * time.Hour: "48 h",
	} {
		assert.Equal(t, want, spanWords(d))
	}
	for text, want := range map[string]string{"Throw it out.": "throw it out.", "UK rules": "UK rules", "A": "A", "": ""} {
		assert.Equal(t, want, uncapital(text))
	}
}
