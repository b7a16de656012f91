package recipes

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trencher/units"
)

// groupsSaid are more ways of saying who comes: groups after one another, parts of a
// group, ages, words for people. What is right of them the named tests say.
var groupsSaid = []string{
	"6 adults, 2 adults no milk, egg, 3 children vegetarian", "2 adults, one of them pregnant", "4 adults, 2 of whom vegan", "3 adults, 5 of them vegan",
	"2 adults and one who is coeliac", "gran", "gran, no nuts and grandad", "my wife and my brother, no fish", "a toddler", "a baby and two adults", "1 child 4 years old",
	"1 child, 5 years old", "1 child 6 years", "1 child under 5", "1 child over 5", "1 child 11 months old", "1 child 18 months", "1 child under 1", "1 child 17 years old", "1 child 18 years old",
	"1 adult 64 years old", "1 adult 65 years old", "1 adult over 65", "1 adult under 65", "1 adult 15 years old", "1 adult 16 years old", "2 children, 3 and 7 years old", "2 children 4 to 8 years old",
	"1 adult 5 months pregnant", "1 adult 30 weeks pregnant", "500 adults", "501 adults", "0 children", "an adult", "two grown ups", "ten guests", "twelve people", "thirteen people",
	"2 grown-ups + 1 kid", "2 adults; 1 kid (no egg)", "2 adults/1 child", "1 adult: vegan & no nuts", "1 adult no butter beans", "1 adult no butter, beans", "1 adult no raw onion", "1 adult egg and nut allergy",
	"1 adult egg, nut and milk allergy", "1 adult severe allergy", "1 adult severe peanut allergy", "1 adult allergic to cashews", "1 adult no cashews", "1 adult allergic to walnuts and cod", "1 adult no",
	"2 adults, 1 no milk", "2 adults, 2 no milk", "2 people who don't eat meat", "2 people who don't eat pork", "1 adult who eats anything", "one vegetarian", "2 vegetarians", "1 adult kosher", "1 adult no pototoes",
	"1 adult no mayonaise", "and", ",", "2 adults,", ", 2 adults", "2 adults and", "1.5 adults", "2 adults 3 children", "2 adults plus 3 children", "2 men, 3 women and a boy", "3 ladies", "our neighbours, no leeks",
	"2 adults no milk no egg", "2 adults no milk but no egg", "3 adults, one of them a child", "3 adults, one of them pregnant, one of them vegan", "2 adults, one vegan and one no nuts", "1 child 7, 1 child 3",
	"1 adult no sparrowgrass", "1 adult no garden peas", "1 adult no meat, no fish", "1 adult no honey", "1 adult nut free", "1 adult dairy-free and wheat-free", "1 adult reaction to celery", "1 adult can't stand beetroot",
}

// Everything the corpora of phrases say, and the groups above, read as when somebody
// last read the difference: it notices what moves, the labels say what is right.
func TestEveryPhraseOfGuestsIsReadAsReviewed(t *testing.T) {
	said := groupsSaid
	files, err := filepath.Glob("../testdata/guests/phrases*.csv")
	require.NoError(t, err)
	require.Greater(t, len(files), 2)
	for _, file := range files {
		for _, row := range readCSV(t, file) {
			said = append(said, row[0])
		}
	}
	var out strings.Builder
	for _, text := range said {
		fmt.Fprintln(&out, text)
		groups, err := ParseGuests(text)
		var wrong *units.FieldError
		if errors.As(err, &wrong) {
			fmt.Fprintf(&out, "  ! %s\n    %s\n", wrong.Problem, wrong.Accepted)
		}
		for _, g := range groups {
			fmt.Fprintf(&out, "  %d %s; %s; %s", g.Count, g.Label(), wordsIn(g.Diet.avoid), strings.Join(g.Diet.Without(), " "))
			fmt.Fprintf(&out, "; %s %t\n", strings.Join(g.Conditions().names(), " "), g.Conditions()&AgeUntold != 0)
			if g.Ask != "" {
				fmt.Fprintf(&out, "    ? %s\n", strings.ReplaceAll(g.Ask, "\n", " | "))
			}
		}
	}
	goldenLines(t, "../testdata/guests/read.txt", out.String())
}

func wordsIn(m marks) string { return strings.Join(m.words(), " ") }

// Everything the corpora of ingredients name, by what it holds.
func TestEveryIngredientHoldsWhatWasReviewed(t *testing.T) {
	files, err := filepath.Glob("../testdata/guests/produce*.txt")
	require.NoError(t, err)
	require.Greater(t, len(files), 2)
	var out strings.Builder
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		for line := range strings.Lines(string(text)) {
			writeHeld(&out, strings.TrimSpace(line))
		}
	}
	files, err = filepath.Glob("../testdata/guests/hidden*.csv")
	require.NoError(t, err)
	for _, file := range files {
		for _, row := range readCSV(t, file) {
			writeHeld(&out, row[0])
			writeHeld(&out, "potatoes "+row[0])
		}
	}
	goldenLines(t, "../testdata/guests/held.txt", out.String())
}

func writeHeld(out *strings.Builder, item string) {
	c := Allergens(item)
	fmt.Fprintf(out, "%s: %s: %s / %s; unknown: %s\n", item, c.Row, wordsIn(c.contains), wordsIn(c.may), strings.Join(unknownServed(item), ", "))
}

// A group is told from another by who they are and what they eat, never by how many
// they are.
func TestGroupsOfOneKind(t *testing.T) {
	read := func(text string) Guests {
		groups, err := ParseGuests(text)
		require.NoError(t, err)
		require.Len(t, groups, 1)
		return groups[0]
	}
	assert.True(t, read("2 adults no milk").IsLike(read("5 adults no milk")))
	for _, other := range []string{"2 adults", "2 adults no egg", "2 children no milk", "1 child 7 years old, no milk"} {
		assert.False(t, read("2 adults no milk").IsLike(read(other)), other)
	}
	assert.False(t, read("1 child 7 years old").IsLike(read("1 child")), "the rules of under-fives hold for one of no told age")
	assert.True(t, read("1 adult no leeks").Diet.LeavesOut("leek"))
	assert.False(t, read("1 adult no leeks").Diet.LeavesOut("onion"))
	assert.Equal(t, UnderFive|AgeUntold, read("1 child").Conditions())
	assert.Equal(t, UnderFive, read("1 child 4 years old").Conditions())
	assert.Zero(t, read("1 child 7 years old").Conditions())
	assert.Zero(t, read("1 adult").Conditions())
	assert.Equal(t, Baby|UnderFive, read("a baby").Conditions())
}

// An age is read alike however it is put, and what follows it is not lost.
func TestAgesHoweverTheyArePut(t *testing.T) {
	want, err := ParseGuests("1 child aged 4 no milk")
	require.NoError(t, err)
	for _, text := range []string{"1 child aged 4 years no milk", "1 child aged 4 years old no milk", "1 child aged 4 old no milk", "1 child aged 48 months no milk", "1 child aged 48 months old no milk"} {
		got, err := ParseGuests(text)
		require.NoError(t, err, text)
		require.Len(t, got, 1, text)
		assert.Equal(t, want[0].Label(), got[0].Label(), text)
	}
}

// How many guests, and how many minutes, may be told in words (ordinary English).
func TestNumbersInWords(t *testing.T) {
	for word, count := range map[string]int{"a": 1, "an": 1, "my": 1, "our": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12} {
		guests, err := ParseGuests(word + " adult")
		require.NoError(t, err, word)
		assert.Equal(t, count, guests[0].Count, word)
	}
	for word, minutes := range map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
		"fifteen": 15, "twenty": 20, "twenty-five": 25, "thirty": 30, "thirty-five": 35, "forty": 40, "forty-five": 45, "fifty": 50, "sixty": 60, "ninety": 90} {
		assert.Equal(t, minutes, minutesIn("Boil for "+word+" minutes."), word)
	}
	for word, portions := range map[string]int{"a dozen": 12, "seven": 7, "eleven": 11, "twelve": 12} {
		n, _ := portionsIn("makes " + word)
		assert.Equal(t, portions, n, word)
	}
}
