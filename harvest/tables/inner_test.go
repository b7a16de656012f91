package tables

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What can be a date of numbers, by how many figures its parts have, and the order
// that it can only have.
func TestDatesOfNumbers(t *testing.T) {
	for text, want := range map[string]string{
		"2031/7": "", "2031-07-12": "2031 7 12", "203/7/12": "", "203/7": "", "12/7/1": "", "12/7/31": "12 7 2031", "12/7/203": "12 7 203", "12/7/2031": "12 7 2031",
		"1/7/1": "", "1/7/31": "1 7 2031", "12/7": "12 7 0", "2031/7/1": "2031 7 1", "1/2/3": "", "12.7.": "12 7 0", "12 7 31": "12 7 2031", "week 1": "week 1", "wk 53": "week 53", "w54": "", "W0": "",
		"4 May": "4 5 0", "May 4": "4 5 0", "4 Mai": "", "4 zzz": "", "zzz 4": "", "16:40": "", "12/7 16:40": "12 7 0 at 16:40", "12/7T6:40:30": "12 7 0 at 6:40", "Tue, 12/7": "12 7 0",
	} {
		d, ok := readDate(text)
		assert.Equal(t, want != "", ok, text)
		if ok {
			assert.Equal(t, want, said(d), text)
		}
	}
	for text, want := range map[string]Order{"13/7/2031": DayFirst, "7/13/2031": MonthFirst, "12/7/2031": AnyOrder, "12/12/2031": AnyOrder, "13/13/2031": AnyOrder, "13.7.2031": AnyOrder, "2031-13-07": AnyOrder, "week 5": AnyOrder} {
		d, ok := readDate(text)
		assert.True(t, ok, text)
		assert.Equal(t, want, d.shows(), text)
	}
}

func said(d date) string {
	words := []string{}
	for _, n := range d.parts {
		words = append(words, strconv.Itoa(n))
	}
	text := strings.Join(words, " ")
	if d.week {
		text = "week " + words[0]
	}
	if d.clock != "" {
		text += " at " + d.clock
	}
	return text
}

// What parts the cells is what parts those of most of the first lines; of marks as
// common the tab, then the semicolon.
func TestSeparators(t *testing.T) {
	for text, want := range map[string]rune{
		"": ',', "a\nb\n": ',', "a;b\n": ';', "a\tb\n": '\t', "a,b;c\n": ';', "a,b\tc;d\n": '\t', "a,b\na,b\na;b\n": ',', "a;b\na;b\na,b\n": ';',
		strings.Repeat("title\n", 29) + "a;b\n": ';', strings.Repeat("title\n", 30) + "a;b\n": ',',
	} {
		assert.Equal(t, want, separatorOf(text), "%q", text)
	}
}

// The corner of a table of days names its plantings, whatever it says; a column that
// says so elsewhere does too.
func TestHeadsOfDays(t *testing.T) {
	head := func(kinds ...string) []column {
		var all []column
		for _, kind := range kinds {
			all = append(all, column{kind: kind, head: kind})
		}
		return all
	}
	for _, c := range []struct {
		columns []column
		head    bool
		first   string
	}{
		{head("", "day", "day"), true, "planting"}, {head("weight", "day", "day"), true, "planting"}, {head("planting", "day", "day"), true, "planting"}, {head("remark", "day", "day"), false, "remark"},
		{head("remark", "planting", "day", "day"), true, "remark"}, {head("", "planting", "day", "day"), true, ""}, {head("", "day"), false, ""}, {head("day", "day", "planting"), true, "day"},
		{head("date", "weight"), true, "date"}, {head("date", "gross"), true, "date"}, {head("date", "date", "weight"), false, "date"}, {head("weight", "planting"), false, "weight"}, {head("date", ""), false, "date"},
	} {
		r := reader{}
		assert.Equal(t, c.head, r.isHead(c.columns), "%v", c.columns)
		assert.Equal(t, c.first, c.columns[0].kind, "%v", c.columns)
	}
}
