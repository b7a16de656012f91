package recipes

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trencher/units/measures"
)

func clauseIn(text string) clause {
	return clauseOf(text, text, nil, newPhraseIndex[string]())
}

// Times that were not all understood, and two ways to choose from, make a clause unclear.
func TestUnclearClauses(t *testing.T) {
	for text, unclear := range map[string]bool{
		"boil for 10 minutes": false, "boil for 10-12 minutes": false, "boil for 10 minutes, then 5 minutes": true, "boil for some minutes": true, "boil overnight": true, "boil for 10 minutes in two batches": true, "boil in two batches": false,
		"fry as long as before": false, "fry for 5 minutes, as before": true, "boil or steam them": true, "boil or serve them": false, "boil for 5 minutes every 2 minutes": false, "boil twenty-five minutes": false, "boil 20'": true, "serve or eat": false, "boil and steam": false,
	} {
		assert.Equal(t, unclear, clauseIn(text).unclear(), text)
	}
	for text, ways := range map[string]int{"": 0, "boil": 1, "boil or steam": 2, "steam, roast, fry or boil": 4, "a baking tray": 0, "roasted and baked": 1} {
		assert.Equal(t, ways, waysIn(text), text)
	}
	for text, of := range map[string]bool{"toast the bread": true, "toast bread": false, "heat the oven": false, "fry the slices": false, "then fry a few more": false, "fry the leeks": true, "melt the butter": false, "and now crush your tubers": true} {
		assert.Equal(t, of, clauseIn(text).ofUnnamed(), text)
	}
	named := clauseIn("fry the leeks")
	named.things = []string{"leeks"}
	assert.False(t, named.ofUnnamed(), "what the list names is named")
}

// Some minutes told and some not, or more than three times to add up, are to be checked.
func TestUntoldTimes(t *testing.T) {
	of := func(minutes ...int) (own []cooked) {
		for _, m := range minutes {
			own = append(own, cooked{how: "boil", minutes: m})
		}
		return own
	}
	for _, c := range []struct {
		own  []cooked
		told bool
	}{{of(), true}, {of(0), true}, {of(5), true}, {of(0, 0), true}, {of(5, 0), false}, {of(0, 5), false}, {of(5, 5, 5), true}, {of(5, 5, 5, 5), false}} {
		assert.Equal(t, !c.told, untold(c.own), c.own)
	}
}

// One way keeps its longest place busy and all its minutes; several are the cook's own;
// more than twelve hours is for the cook to say.
func TestOneWayOfSeveral(t *testing.T) {
	for _, c := range []struct {
		said []cooked
		want Cooking
	}{
		{nil, Cooking{}},
		{[]cooked{{"boil", "ring", 10, "tender"}}, Cooking{How: "boil", Uses: "ring", Minutes: 10, Until: "tender"}},
		{[]cooked{{"boil", "ring", 10, ""}, {"boil", "ring", 5, "soft"}}, Cooking{How: "boil", Uses: "ring", Minutes: 15, Until: "soft"}},
		{[]cooked{{"boil", "ring", 10, "tender"}, {"own", "oven", 40, "soft"}}, Cooking{How: "own", Uses: "oven", Minutes: 50, Until: "tender"}},
		{[]cooked{{"own", "oven", 40, ""}, {"own", "ring", 10, ""}}, Cooking{How: "own", Uses: "oven", Minutes: 50}},
		{[]cooked{{"own", "oven", 10, ""}, {"own", "ring", 10, ""}}, Cooking{How: "own", Uses: "oven", Minutes: 20}},
		{[]cooked{{"steam", "", 10, ""}, {"own", "nothing", 5, ""}}, Cooking{How: "own", Uses: "ring", Minutes: 15}},
		{[]cooked{{"boil", "ring", 360, ""}, {"boil", "ring", 360, ""}}, Cooking{How: "boil", Uses: "ring", Minutes: 720}},
		{[]cooked{{"boil", "ring", 360, ""}, {"boil", "ring", 361, ""}}, Cooking{How: "boil", Uses: "ring"}},
		{[]cooked{{"boil", "ring", 0, ""}}, Cooking{How: "boil", Uses: "ring"}},
	} {
		assert.Equal(t, c.want, oneWay(c.said), c.said)
	}
}

// What a clause speaks of, coming from what the one before spoke of.
func TestTurnsOfClauses(t *testing.T) {
	leek := &cropDraft{crop: "leek", line: &ImportedLine{Read: measures.Line{Item: "leeks"}}}
	for _, c := range []struct {
		text   string
		things []string
		named  bool
		from   about
		to     about
	}{
		{"boil the leeks", []string{"leeks"}, true, somethingElse, thisCrop}, {"boil for 5 minutes", nil, false, thisCrop, thisCrop}, {"boil for 5 minutes", nil, false, somethingElse, somethingElse}, {"boil for 5 minutes", nil, false, nothingYet, nothingYet},
		{"fry the bacon", []string{"bacon"}, false, thisCrop, somethingElse}, {"add the bacon", []string{"bacon"}, false, thisCrop, thisCrop}, {"stir in the bacon", []string{"bacon"}, false, somethingElse, somethingElse}, {"add the bacon to a pan", []string{"bacon"}, false, thisCrop, somethingElse},
		{"cook everything", nil, false, somethingElse, thisCrop}, {"add the rest", nil, false, thisCrop, somethingElse}, {"fry the leek greens", []string{"leek"}, false, thisCrop, thisCrop}, {"put it over the bacon", []string{"bacon"}, false, thisCrop, thisCrop},
	} {
		cl := clauseIn(c.text)
		cl.things = c.things
		assert.Equal(t, c.to, turnTo(c.from, cl, c.named, leek), c.text)
	}
	meanwhile := clauseIn("boil for 5 minutes")
	meanwhile.apart = true
	assert.Equal(t, somethingElse, turnTo(thisCrop, meanwhile, false, leek))
	elsewhere := clauseIn("stir the flour into the bacon")
	elsewhere.things, elsewhere.elsewhere = []string{"flour", "bacon"}, true
	assert.Equal(t, somethingElse, turnTo(thisCrop, elsewhere, false, leek))
}

// Minutes without a way of cooking go on with what cooks, come on top, or are none.
func TestMinutesThatGoOn(t *testing.T) {
	boiled := func(minutes int) []cooked { return []cooked{{how: "boil", uses: "ring", minutes: minutes}} }
	for _, c := range []struct {
		text     string
		own, any []cooked
		of       about
		named    bool
		want     []int
		loose    bool
	}{
		{"for 5 minutes", boiled(0), nil, thisCrop, false, []int{5}, false}, {"cover for 5 minutes", boiled(10), nil, thisCrop, false, []int{15}, false}, {"5 minutes more", boiled(10), nil, thisCrop, false, []int{15}, false}, {"season after 5 minutes have gone by", boiled(10), nil, thisCrop, false, []int{10}, false}, {"season it, 5 minutes", boiled(10), nil, thisCrop, false, []int{10}, true},
		{"leave to stand for 5 minutes", boiled(10), nil, thisCrop, false, []int{10}, false}, {"for 5 minutes", boiled(10), nil, somethingElse, false, []int{10}, false}, {"for 5 minutes", nil, nil, thisCrop, false, nil, true}, {"add the leeks for 5 minutes", nil, boiled(10), thisCrop, true, []int{5}, false},
		{"add the leeks for the last 5 minutes", boiled(10), boiled(20), thisCrop, true, []int{5}, false}, {"for the last 5 minutes", boiled(10), nil, thisCrop, false, []int{10}, false}, {"add the leeks", nil, boiled(10), thisCrop, true, nil, false},
	} {
		own, loose := goOn(c.own, c.any, clauseIn(c.text), c.of, c.named, false)
		var minutes []int
		for _, one := range own {
			minutes = append(minutes, one.minutes)
		}
		assert.Equal(t, c.want, minutes, c.text)
		assert.Equal(t, c.loose, loose, c.text)
	}
}

// What is only cooked is cooked in what stands around it: in fat on a ring, in water in
// a pot, surely where its own sentence or the one before says so.
func TestPlainCooking(t *testing.T) {
	for _, c := range []struct {
		before    []string
		sentence  string
		how, uses string
		unsure    bool
	}{
		{nil, "cook in the butter", "own", "ring", false}, {nil, "cook in water", "boil", "ring", false}, {[]string{"melt the butter"}, "cook", "own", "ring", false}, {[]string{"melt the butter", "slice"}, "cook", "own", "ring", true}, {[]string{"boil some water", "slice"}, "cook", "boil", "ring", true}, {nil, "cook", "boil", "ring", true},
		{[]string{"use a slow cooker"}, "cook", "own", "nothing", false}, {[]string{"use a slow cooker", "slice"}, "cook", "own", "nothing", true}, {[]string{"melt the butter"}, "cook in stock", "boil", "ring", true}, {nil, "cook the butter in stock", "boil", "ring", true},
		{[]string{"melt the butter", "a", "b", "c", "d", "e", "f", "g"}, "cook", "own", "ring", true}, {[]string{"melt the butter", "a", "b", "c", "d", "e", "f", "g", "h"}, "cook", "boil", "ring", true},
	} {
		how, uses, plain, unsure := plainCooking(c.sentence, c.before)
		assert.Equal(t, []any{c.how, c.uses, true, c.unsure}, []any{how, uses, plain, unsure}, "%v %s", c.before, c.sentence)
	}
}

// A sentence is parted where something new is done.
func TestClausesOfSentences(t *testing.T) {
	for sentence, want := range map[string][]string{
		"Boil the leeks": {"Boil the leeks"}, "Boil the leeks, drain and serve": {"Boil the leeks,", "drain and", "serve"}, "Boil and drain": {"Boil and", "drain"}, "Boil then drain": {"Boil then", "drain"}, "Boil the drain": {"Boil the drain"}, "Boil them Drain them": {"Boil them", "Drain them"}, "": {""}, "Boil; (drain) it": {"Boil;", "(drain) it"}, "leeks, boil, 5 min": {"leeks,", "boil, 5 min"},
	} {
		assert.Equal(t, want, clausesOf(sentence), sentence)
	}
	for step, want := range map[string]int{"Boil. Drain.": 3, "Boil for 1 hr. 10 min. or so": 1, "Boil, then drain": 2, "Boil & drain": 1, "Boil! Drain? Serve; eat": 4} {
		got := 0
		for _, one := range sentencesOf(step) {
			if one != "" {
				got++
			}
		}
		if want == 3 {
			want = 2
		}
		assert.Equal(t, want, got, step)
	}
	for text, until := range map[string]string{"until just tender": "just-tender", "until AL DENTE": "just-tender", "with a bite": "just-tender", "until very soft": "soft", "until soft": "soft", "until falling apart": "soft", "until tender": "tender", "until done": "", "": ""} {
		assert.Equal(t, until, untilIn(text), text)
	}
}
