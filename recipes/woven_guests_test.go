package recipes

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"trencher/units"
)

// What is said of guests, and words of what is brought to food.
var (
	wovenGroups     = strings.Split("1 adult|2 adults|3 children|a toddler|gran|my wife|one of them|2 of whom|two grown ups|a baby|1 child|500 guests|4 of them|1 child aged 4|our neighbours|12 people", "|")
	wovenDenials    = strings.Split("no|without|allergic to|can't stand|doesn't eat|intolerant to|not keen on|avoids|no raw|hates", "|")
	wovenThings     = strings.Split("milk|egg|nuts|peanut|tree nuts|fish|meat|raw onion|onions|leeks|butter beans|corn on the cob|cashews|gluten|shellfish|honey|pork|courgettes|moonleaf|celery|kiwi|walnuts and cod|spring onions|dairy", "|")
	wovenConditions = strings.Split("coeliac|vegan|vegetarian|pescetarian|pregnant|30 weeks pregnant|5 years old|18 months old|over 65|under 5|aged 6|kosher|severe nut allergy|gluten free|milk and egg intolerant|eats anything|low salt|strictly vegan|lactose intolerant|7 year old|please|very severe allergy|who is vegan|egg allergy", "|")
	wovenJoins      = []string{" and ", " or ", ", ", " nor ", "; ", " ", " / "}
	wovenFoods      = strings.Split("fried|in|butter|with|a|spoon of|moonleaf|lumbang|and|or|over|the|pan|battered|Kestrel|potatoes|leaves|moonwort|petals|nettle|add|scatter|some|fresh|cheese|sauce|without|until|soft|to|serve|kidney beans|raw|dried|tinned|sprouts|elder|berries|rhubarb|stalks|green|almonds|,|.|(|wine|stock|cut|into|dice|honey|bacon|breadcrumbs|not|but|from|own|root|of|whole|grapes|egg|soft-boiled|unpasteurised|milk|soy|glaze|daffodil|bulbs|cassava|apricot|kernels", "|")
)

func pick(random *rand.Rand, of []string) string { return of[random.IntN(len(of))] }

// wovenGuest is a group or several, and what is said of each.
func wovenGuest(random *rand.Rand) string {
	text := ""
	for range 1 + random.IntN(2) {
		if text != "" {
			text += pick(random, wovenJoins)
		}
		text += pick(random, wovenGroups)
		for range random.IntN(3) {
			text += pick(random, []string{" ", ", ", " and "})
			if random.IntN(2) == 0 {
				text += pick(random, wovenConditions)
				continue
			}
			text += pick(random, wovenDenials)
			for n := range 1 + random.IntN(3) {
				text += map[bool]string{true: " ", false: pick(random, wovenJoins)}[n == 0] + pick(random, wovenThings)
			}
		}
	}
	return text
}

func woven(random *rand.Rand, of []string, least, most int) string {
	var words []string
	for range least + random.IntN(most-least+1) {
		words = append(words, of[random.IntN(len(of))])
	}
	return strings.Join(words, " ")
}

// Words in every company: who comes, and what they leave out, as when somebody last read
// the difference.
func TestWovenGuests(t *testing.T) {
	var out strings.Builder
	random := rand.New(rand.NewPCG(20, 16))
	for range 700 {
		text := wovenGuest(random)
		groups, err := ParseGuests(text)
		var wrong *units.FieldError
		if errors.As(err, &wrong) {
			fmt.Fprintf(&out, "%s ! %.60s\n", text, wrong.Problem)
			continue
		}
		fmt.Fprint(&out, text)
		for _, g := range groups {
			fmt.Fprintf(&out, " | %d %s %t; %.40q", g.Count, g.Label(), g.Conditions()&AgeUntold != 0, g.Ask)
		}
		fmt.Fprintln(&out)
	}
	goldenLines(t, "../testdata/guests/woven.txt", out.String())
}

// Words in every company, as what a dish says: what nobody knows, what can poison, what
// it brings, what is not for some.
func TestWovenTextsOfDishes(t *testing.T) {
	var out strings.Builder
	random := rand.New(rand.NewPCG(20, 16))
	for n := range 500 {
		text := woven(random, wovenFoods, 2, 7)
		fmt.Fprintf(&out, "%s: unknown %s, plants %s;", text, strings.Join(unknownServed(text), ","), strings.Join(unknownPlants(text), ","))
		held := stateOf("potato", text, stated{})
		fmt.Fprintf(&out, " %s / %s;", wordsIn(held.contains), wordsIn(held.may))
		d := Dish{Name: "D", Crops: []CropLine{{Crop: "potato", Cook: "boil"}}, Others: []OtherLine{{Item: "carrot", Amount: units.MustParse("1"), State: text}}}
		if n%2 == 0 {
			d.Others, d.Method = nil, []string{text}
		}
		for _, p := range d.Poisons() {
			fmt.Fprintf(&out, " %s %t", p.Words, p.Grave)
		}
		for _, unfit := range d.UnfitFor(Conditions(1 << (n % 7))) {
			fmt.Fprintf(&out, " unfit %s", unfit.Words)
		}
		if n%3 == 0 {
			diet, err := ParseDiet([]string{"vegan", "no onion, no nuts", "no milk"}[n/3%3])
			if err == nil {
				suits, why := d.Suits(diet)
				fmt.Fprintf(&out, " suits %t %.80s", suits, why)
			}
		}
		fmt.Fprintln(&out)
	}
	goldenLines(t, "../testdata/guests/woven-texts.txt", out.String())
}
